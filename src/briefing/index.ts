export { ashoreAllDay, isClosedDay, isKeptIn } from './ashore.ts';
export {
  adviceFacts,
  planFacts,
  type AdviceFacts,
  type AdviceStatement,
  type CastStatement,
  type RankedPlace,
  type ToldHazard,
} from './adviceFacts.ts';
export { composeBriefing, type BriefingInput, type RetrievalNote } from './compose.ts';
export type { LevelSpan, NoteFact, WaterSpan } from './notes.ts';
export { layerFact } from './lakePart.ts';
export { inOneFigure } from './oneFigure.ts';
export { checkedBriefing, readBriefing, readComparable } from './read.ts';
export type { SaidFact } from './said.ts';
export {
  briefingSchema,
  castNumbers,
  dateIso,
  figureSchema,
  hazardCore,
  instant,
  lakeSchema,
  levelSchema,
  mapSchema,
  noticesSchema,
  pocketFiguresSchema,
  quantityKindSchema,
  rowCoreSchema,
  seriesSchema,
  sourceSchema,
  tendencyWord,
  type Briefing,
  type BriefingFigure,
  type BriefingStatus,
  type CastFacts,
  type ChangeFact,
  type ComparableIssue,
  type ConditionFacts,
  type GapFact,
  type HazardFacts,
  type IssuedBriefing,
  type LessonFacts,
  type MovedFact,
  type OutingFacts,
  type BlockFacts,
  type PlanFacts,
  type PositionFacts,
  type ScoreFacts,
  type Statement,
} from './schema.ts';
