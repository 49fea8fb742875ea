export { composeBriefing, type BriefingInput, type RetrievalNote } from './compose.ts';
export {
  briefingSchema,
  type BriefingCast,
  type BriefingChange,
  type BriefingDocument,
  type BriefingFigure,
  type BriefingHazard,
  type BriefingPosition,
  type BriefingStatus,
  type ConditionRow,
} from './schema.ts';
export { BOTTOM_LINE_MAX, COLD_WATER_C, lowerFirst } from './headline.ts';
export { messagesFor, type Messages } from '../words/index.ts';
export { clock, dateWords, hourWords, momentWords, zoneWords } from './when.ts';
