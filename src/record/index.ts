export { openRecord } from './open.ts';
export { RecordStore } from './store.ts';
export { freshness, usualIntervalS, type FreshnessWord } from './freshness.ts';
export type { PutResult } from './putObservations.ts';
export type { Validator, ValidatorStore } from './validators.ts';
export type { Database } from './schema/index.ts';
export type * from './types.ts';
