export { renderBriefing, type ReaderView, type RenderedBriefing } from './renderBriefing.ts';
export { dayFigure, mapFigure, mapHourLines, waterFigure } from './webDrawings.ts';
export { inUnits } from './present.ts';
export { cardText, PREHEADER_MAX, SHORT_WORDS } from './text.ts';
export { clockOf, inClock, type ClockStyle } from './clock.ts';
export { isAllowedLink } from './links.ts';
