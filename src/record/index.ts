export { openRecord } from './open.ts';
export { examineRecord } from './examine.ts';
export { keepShapes, keptShapes } from './shapes.ts';
export { makeFolder } from './folder.ts';
export { RecordStore } from './store.ts';
export { freshness, usualIntervalS, type FreshnessWord } from './observations/freshness.ts';
export type { PutResult } from './observations/putObservations.ts';
export type { Validator, ValidatorStore } from './observations/validators.ts';
export { type SeriesCoverage } from './observations/coverage.ts';
export { RETENTION_DAYS, type Compacted } from './retention.ts';
export { kindOfVariable, siUnitOf } from './observations/variables.ts';
export type { MorningClock } from './observations/forecastThinning.ts';
export { isServerRecord, serverAddress } from './server.ts';
export { isChangedByNewer } from './migrate.ts';
export { copyRecord, type CopiedTable } from './copy.ts';
export type { DeliveryRecord } from './delivery/readers.ts';
export { refuseInUse, restoreRecord } from './restore.ts';
export type { Upkeep } from './dialect/index.ts';
export { refuseAhead } from './readings/readings.ts';
export { parseLengthM, parseWater, type WrittenWater } from './readings/readingInput.ts';
export { readingQuestions, type ReadingQuestion } from './readings/readingQuestions.ts';
export { sameDoubt, type Doubt } from './quality/doubt.ts';
export { foreseen, looksAhead } from './observations/standIn.ts';
export type { RecordWindow } from './observations/window.ts';
export type { ViewOptions } from './observations/view.ts';
export { spanOf, type Span } from './observations/span.ts';
export {
  outingsOf,
  putOutings,
  readerPrefix,
  removeOuting,
  type OutingClash,
  type OutingEntry,
} from './readings/outings.ts';
export type { Database } from './schema/index.ts';
export * from './types.ts';
