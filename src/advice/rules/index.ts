export { type Known, knownOf } from './known.ts';
export { isTrueOf } from './truth.ts';
