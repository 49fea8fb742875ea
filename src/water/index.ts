export { LONGEST_BRIDGED_GAP_DAYS } from './assumedAir.ts';
export {
  LESSON_FROM,
  type LeadLesson,
  type OutlookMiss,
  outlookLessons,
  withLesson,
} from './outlookLesson.ts';
export { type Refusal, impossible } from './refusal.ts';
export { at } from './series.ts';
