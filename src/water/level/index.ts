export { bandPosition, type BandPosition } from './band.ts';
export { levelChange, type LevelChange, type LevelPoint } from './change.ts';
export { sameDatum } from './datum.ts';
