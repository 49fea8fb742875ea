export {
  correctByReadings,
  type CorrectedPocket,
  type PocketReading,
  type RefusedPocketReading,
} from './readings.ts';
export { classPocket, type LandCover, type PocketShape } from './shape.ts';
export { simulatePocket } from './simulate.ts';
export type {
  PocketBooks,
  PocketError,
  PocketHour,
  PocketOptions,
  PocketRun,
  PocketState,
  Shift,
} from './types.ts';
export { shadedHours } from './exposure.ts';
