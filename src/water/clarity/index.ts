export { clarityClass, READING_LIMIT_DAYS, type ClarityEstimate, type ClarityInput } from './estimate.ts';
