/** What outings say, with how many they are, or that they are too few to say anything. */
import type { Outing } from '../record/index.ts';
import { ASPECTS, groupOf, type Aspect, type PlannedPlaces } from './groups.ts';
import { ratesOf, type Rate } from './rates.ts';

/** From how many on something is said. Common practice, no source. */
export const FEWEST = {
  /** Outings of a group. */
  outings: 10,
  /** Of the lake in all, and from how many readers: fewer would tell what one person does. */
  sharedOutings: 30,
  sharedReaders: 5,
  /** Readers of a group in what all may see. */
  groupReaders: 3,
} as const;

export interface Told extends Rate {
  /** False: too few to say, and its rate is shown to nobody. */
  readonly enough: boolean;
}

export interface Comparison {
  readonly aspect: Aspect;
  readonly groups: readonly Told[];
  /** Outings that name several groups or none. */
  readonly silent: number;
}

export interface OutingReport {
  readonly n: number;
  readonly readers: number;
  readonly blank: number;
  /** Whether there are enough for anything to be said at all. */
  readonly enough: boolean;
  /** All outings together; null when they are too few. */
  readonly whole: Rate | null;
  readonly comparisons: readonly Comparison[];
}

const order = (a: Told, b: Told): number => b.n - a.n || (a.group < b.group ? -1 : 1);

/**
 * Fish per hour by kind of place, class of lure, part of the day and agreement with the plan.
 *
 * @param whose `shared`: what readers let all see, only from five readers and 30 outings on; `own`: one reader's own
 * @param planned kinds of place that were planned, by local date
 */
export function compareOutings(
  outings: readonly Outing[],
  whose: 'shared' | 'own',
  planned: PlannedPlaces,
): OutingReport {
  const counted = whose === 'shared' ? outings.filter(({ shared }) => shared) : outings;
  const readers = new Set(counted.map(({ readerId }) => readerId)).size;
  const enough =
    whose === 'shared'
      ? counted.length >= FEWEST.sharedOutings && readers >= FEWEST.sharedReaders
      : counted.length >= FEWEST.outings;
  const head = { n: counted.length, readers, blank: counted.filter(({ fish }) => fish === 0).length, enough };
  if (!enough) return { ...head, whole: null, comparisons: [] };
  const rowsOf = (aspect: Aspect | null) =>
    counted.flatMap((outing) => {
      const group = aspect === null ? 'all' : groupOf(outing, aspect, planned);
      return group === null
        ? []
        : [{ fish: outing.fish, hours: outing.hours, reader: outing.readerId, group }];
    });
  const isTold = (rate: Rate): boolean =>
    rate.n >= FEWEST.outings && (whose === 'own' || rate.readers >= FEWEST.groupReaders);
  return {
    ...head,
    whole: ratesOf(rowsOf(null))[0] ?? null,
    comparisons: ASPECTS.map((aspect) => {
      const rows = rowsOf(aspect);
      return {
        aspect,
        groups: ratesOf(rows)
          .map((rate): Told => ({ ...rate, enough: isTold(rate) }))
          .sort(order),
        silent: counted.length - rows.length,
      };
    }),
  };
}
