export { renderBriefing, type ReaderView, type RenderedBriefing } from './renderBriefing.ts';
export { inUnits } from './present.ts';
export { SHORT_MAX } from './text.ts';
export { isAllowedLink } from './links.ts';
