import type { Kysely } from 'kysely';
import type { Knowledge } from './known.ts';
import { newestIssue, versionsOf, type Version } from './loadObservations.ts';
import { seriesOf, type Series } from './series.ts';
import type { Database } from '../schema/index.ts';
import type { Observation, RecordView } from '../types.ts';
import { viewOf, type SeriesLoader, type ViewOptions } from './view.ts';

export interface RecordWindow {
  /** The same view as the record itself gives, for an instant whose days lie in the window. */
  view(lake: string, asOfMs: number, options?: ViewOptions): Promise<RecordView>;
}

/** Index of the first version after an instant. */
function firstAfter(versions: readonly Version[], ms: number): number {
  let [low, high] = [0, versions.length];
  while (low < high) {
    const middle = (low + high) >>> 1;
    if ((versions[middle]?.observation.atMs ?? Infinity) > ms) high = middle;
    else low = middle + 1;
  }
  return low;
}

/** What was known: of the versions of an instant the newest known by then, else an archive's where it is allowed. */
function knownOf(
  versions: readonly Version[],
  fromMs: number,
  { asOfMs, archive }: Knowledge,
): Observation[] {
  const known: Observation[] = [];
  let last: Version | undefined;
  for (const version of versions.slice(firstAfter(versions, fromMs), firstAfter(versions, asOfMs))) {
    const isByThen = version.knownMs <= asOfMs;
    if (!isByThen && !(archive && version.isArchive)) continue;
    const isSameInstant = last?.observation.atMs === version.observation.atMs;
    if (!isSameInstant) known.push(version.observation);
    else if (isByThen) known[known.length - 1] = version.observation;
    else continue;
    last = version;
  }
  return known;
}

export async function openWindow(
  db: Kysely<Database>,
  lake: string,
  fromMs: number,
  toMs: number,
): Promise<RecordWindow> {
  const held: { readonly series: Series; readonly versions: readonly Version[] }[] = [];
  for (const series of await seriesOf(db, lake))
    held.push({
      series,
      versions: series.kind === 'forecast' ? [] : await versionsOf(db, series, fromMs, toMs),
    });
  const load: SeriesLoader = (beginMs, knowledge, fromOf) =>
    Promise.all(
      held.map(async ({ series, versions }) => {
        const from = fromOf[series.variable] ?? beginMs;
        return series.kind === 'forecast'
          ? await newestIssue(db, series, from, knowledge)
          : knownOf(versions, from, knowledge);
      }),
    );
  return { view: (of, asOfMs, options) => viewOf(db, of, asOfMs, options, load) };
}
