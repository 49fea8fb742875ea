export type { ClarityClass } from './classes.ts';
export { clarityClass, type ClarityEstimate, type ClarityInput } from './estimate.ts';
