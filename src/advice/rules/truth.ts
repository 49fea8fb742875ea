import type { ComparedTruth, HOUR_NUMBERS, Truth } from '../../config/index.ts';
import type { SignalId, Species, WaterBody } from '../../signals/index.ts';
import type { PhaseId } from '../types.ts';

type HourNumber = (typeof HOUR_NUMBERS)[number];

/** What the truth of a sentence is judged on: a day, or one hour of it with that hour's numbers in place of the day's. */
export interface Judged {
  readonly species: Species;
  readonly waterBody: WaterBody;
  /** Fresh or ageing numbers only, SI; an absent one is unknown. */
  readonly signals: Readonly<Partial<Record<SignalId | HourNumber, number>>>;
  /** Membership of the season phases, 0..1 each. */
  readonly membership: Readonly<Partial<Record<PhaseId, number>>>;
  /** Kinds of place that this water has. */
  readonly places: ReadonlySet<string>;
}

function numberOf(measure: string, { signals }: Judged): number | undefined {
  const numbers: Readonly<Record<string, number | undefined>> = signals;
  const [first = '', second] = measure.split(' - ');
  const value = numbers[first];
  const minus = second === undefined ? 0 : numbers[second];
  return value === undefined || minus === undefined ? undefined : value - minus;
}

/** Whether a comparison holds; undefined while its number is unknown. */
function compare([measure, sign, limit]: ComparedTruth, day: Judged): boolean | undefined {
  const value = numberOf(measure, day);
  if (value === undefined) return undefined;
  switch (sign) {
    case '>=':
      return value >= limit;
    case '<=':
      return value <= limit;
    case '>':
      return value > limit;
    case '<':
      return value < limit;
  }
}

function holds(clause: Truth, day: Judged): boolean {
  if (Array.isArray(clause)) return compare(clause, day) === true;
  if ('phases' in clause) {
    return clause.phases.reduce((sum, id) => sum + (day.membership[id] ?? 0), 0) >= clause.atLeast;
  }
  if ('any' in clause) return clause.any.some((each) => compare(each, day) === true);
  if ('none' in clause) {
    const answers = clause.none.map((each) => compare(each, day));
    return answers.some((answer) => answer !== undefined) && !answers.includes(true);
  }
  if ('unknown' in clause) return day.signals[clause.unknown] === undefined;
  if ('has' in clause) return clause.has.some((place) => day.places.has(place));
  if ('species' in clause) return clause.species.includes(day.species);
  return clause.waterBody.includes(day.waterBody);
}

/**
 * Whether a sentence is true of a day or an hour: every condition beside it holds. A sentence without conditions is
 * timeless and always true; a condition on an unknown number is not met, so that nothing is said for lack of knowledge.
 */
export function isTrueOf(trueWhen: readonly Truth[] | undefined, day: Judged): boolean {
  return trueWhen === undefined || trueWhen.every((clause) => holds(clause, day));
}
