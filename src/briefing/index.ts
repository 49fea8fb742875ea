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
  type Briefing,
  type BriefingStatus,
  type IssuedBriefing,
} from './document/briefing.ts';
export { type ChangeFact, type MovedFact } from './document/change.ts';
export { type ComparableIssue } from './document/comparable.ts';
export { pocketFiguresSchema, seriesSchema, tendencyWord } from './document/days.ts';
export {
  dateIso,
  figureSchema,
  instant,
  levelSchema,
  quantityKindSchema,
  rowCoreSchema,
  type BriefingFigure,
  type ConditionFacts,
  type Statement,
} from './document/fact.ts';
export { hazardCore, type HazardFacts } from './document/hazard.ts';
export {
  sourceSchema,
  type GapFact,
  type LessonFacts,
  type OutingFacts,
  type ScoreFacts,
} from './document/known.ts';
export { lakeSchema, mapSchema, noticesSchema } from './document/lake.ts';
export { castNumbers, type CastFacts, type PositionFacts } from './document/place.ts';
export { type BlockFacts, type PlanFacts } from './document/plan.ts';
