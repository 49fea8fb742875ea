/** By what outings are set beside each other. An outing that cannot say is left out of that comparison, never shared out. */
import type { Outing } from '../record/index.ts';

export const ASPECTS = ['agreement', 'place', 'lure', 'window'] as const;
export type Aspect = (typeof ASPECTS)[number];

/** Part of the day in which the middle of an outing lies, by its first minute; common practice, no source. */
const WINDOWS = [
  { id: 'early', untilMinute: 9 * 60 },
  { id: 'midday', untilMinute: 13 * 60 },
  { id: 'afternoon', untilMinute: 17 * 60 },
  { id: 'evening', untilMinute: 24 * 60 + 1 },
] as const;
export type Window = (typeof WINDOWS)[number]['id'];

/** Longer outings belong to no part of the day, minutes. */
const LONGEST_MINUTES = 6 * 60;

/** Part of the day that holds the middle of an outing; null without a clock or when it took longer than six hours. */
function windowOf({ clock }: Pick<Outing, 'clock'>): Window | null {
  if (clock === undefined || clock.toMinute - clock.fromMinute > LONGEST_MINUTES) return null;
  const middle = (clock.fromMinute + clock.toMinute) / 2;
  return WINDOWS.find(({ untilMinute }) => middle < untilMinute)?.id ?? null;
}

/** What a day's plan said: kinds of place of its blocks, else the first place of the ranking. */
export type PlannedPlaces = ReadonlyMap<string, readonly string[]>;

/**
 * Whether an outing was where that morning's briefing sent its readers: the reader's own word, else its places beside
 * those of the plan.
 *
 * @param planned kinds of place by local date
 * @returns null where no briefing was issued, or the outing names no place or both kinds
 */
function agreementOf(outing: Outing, planned: PlannedPlaces): 'followed' | 'elsewhere' | null {
  if (outing.plan !== undefined) return outing.plan;
  const wanted = planned.get(outing.date);
  const kinds = [...new Set(outing.places.map(({ kind }) => kind))];
  if (wanted === undefined || wanted.length === 0 || kinds.length === 0) return null;
  const there = kinds.filter((kind) => wanted.includes(kind)).length;
  return there === kinds.length ? 'followed' : there === 0 ? 'elsewhere' : null;
}

/** The one group that an outing belongs to under an aspect; null where it does not say, or says several. */
export function groupOf(outing: Outing, aspect: Aspect, planned: PlannedPlaces): string | null {
  const only = (all: readonly string[]): string | null => {
    const [first = null, ...more] = new Set(all);
    return more.length === 0 ? first : null;
  };
  switch (aspect) {
    case 'place':
      return only(outing.places.map(({ kind }) => kind));
    case 'lure':
      return only(outing.lures);
    case 'window':
      return windowOf(outing);
    case 'agreement':
      return agreementOf(outing, planned);
  }
}
