export {
  clarityClass,
  READING_LIMIT_DAYS,
  type ClarityEstimate,
  type ClarityInput,
  type ClarityReason,
} from './estimate.ts';
