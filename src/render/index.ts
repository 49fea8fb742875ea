export {
  renderBriefing,
  renderInFull,
  type BriefingInFull,
  type ReaderView,
  type RenderedBriefing,
} from './renderBriefing.ts';
export { liveDayFigure, mapFigure, mapHourLines, waterFigure } from './webDrawings.ts';
export { giveBackAfterDrawing } from './charts/png.ts';
export { conditionRows } from './conditions.ts';
export { inUnits } from './present.ts';
export { MAIL_WORDS } from './mailLength.ts';
export { cardText, PREHEADER_MAX, SHORT_WORDS } from './text.ts';
export { clockOf, inClock, type ClockStyle } from './clock.ts';
export { escapeHtml } from './escape.ts';
export { PERSONAL_MARK } from './html.ts';
export { isAllowedLink } from './links.ts';
export { COLOUR } from './style.ts';
