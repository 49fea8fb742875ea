export { renderBriefing, type ReaderView, type RenderedBriefing } from './renderBriefing.ts';
export { dayFigure, mapFigure, mapHourLines, waterFigure } from './webDrawings.ts';
export { inUnits } from './present.ts';
export { cardText, PREHEADER_MAX, SHORT_WORDS } from './text.ts';
export { clockOf, inClock, type ClockStyle } from './clock.ts';
export { escapeHtml } from './escape.ts';
export { PERSONAL_MARK } from './html.ts';
export { isAllowedLink } from './links.ts';
export { COLOUR } from './style.ts';
