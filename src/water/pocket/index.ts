export { classPocket, type LandCover, type PocketShape } from './shape.ts';
export { simulatePocket } from './simulate.ts';
export type { PocketBooks, PocketHour, PocketOptions, PocketRun, PocketState } from './types.ts';
