/** Which scores are worth telling, and in what they are counted. */
import type { QuantityKind } from '../units/index.ts';
import type { LeadLesson } from '../water/index.ts';
import type { Item, ItemScore } from './types.ts';

/** Fewer outcomes say nothing that would not turn with the next one. Common practice, no source. */
export const FEWEST_OUTCOMES = 10;

export const ERROR_KIND: Readonly<Record<Item, QuantityKind>> = {
  water: 'temperatureError',
  waterAhead: 'temperatureError',
  level: 'levelError',
  air: 'temperatureError',
  wind: 'windSpeedError',
};

/** The scores that have enough outcomes to be told to a reader. */
export const worthTelling = (scores: readonly ItemScore[]): ItemScore[] =>
  scores.filter(({ n }) => n >= FEWEST_OUTCOMES);

/** What past outlooks taught, as far as enough of them could be compared to tell a reader; the others are left out. */
export const lessonsWorthTelling = (lessons: readonly LeadLesson[] = []): LeadLesson[] =>
  lessons.filter(({ issues }) => issues >= FEWEST_OUTCOMES);
