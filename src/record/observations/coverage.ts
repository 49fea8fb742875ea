import { freshness, usualIntervalS, type FreshnessWord } from './freshness.ts';
import { groupBy } from './groupBy.ts';
import type { Observation, RecordView } from '../types.ts';
import { DAY_MS } from '../../units/time/index.ts';

/** What there is of one series: newest believed value, its age, and the days behind it. */
export interface SeriesCoverage {
  readonly variable: Observation['variable'];
  readonly source: string;
  readonly station: string;
  readonly kind: Observation['kind'];
  readonly periodS: number;
  readonly datum: string;
  /** Newest value that is not doubted; null when all are. For a forecast its first coming value. */
  readonly last: Observation | null;
  /** What freshness is judged by: instant of a measurement, issue of a forecast; null without one. */
  readonly lastMs: number | null;
  readonly intervalS: number;
  readonly freshness: FreshnessWord;
  readonly doubted: number;
  /** Share of the expected values of each 24 h, oldest first, the last one ends at the view's instant. Empty for forecasts. */
  readonly days: readonly number[];
}

/** A model is run and issued about every six hours, whatever its step. */
const ISSUE_INTERVAL_S = 6 * 3600;

function dayShares(rows: readonly Observation[], asOfMs: number, days: number, intervalS: number): number[] {
  const counts = new Array<number>(days).fill(0);
  for (const row of rows) {
    const day = days - 1 - Math.floor((asOfMs - row.atMs) / DAY_MS);
    const count = counts[day];
    if (count !== undefined) counts[day] = count + 1;
  }
  const expected = Math.max(1, Math.floor(DAY_MS / (intervalS * 1000)));
  return counts.map((count) => Math.min(1, count / expected));
}

function coverageOfSeries(rows: readonly Observation[], asOfMs: number, days: number): SeriesCoverage[] {
  const first = rows[0];
  if (first === undefined) return [];
  const believed = rows.filter((row) => row.doubt === undefined);
  const isForecast = first.kind === 'forecast';
  const last = (isForecast ? believed.find((row) => row.atMs >= asOfMs) : believed.at(-1)) ?? null;
  const lastMs = last === null ? null : isForecast ? last.issuedMs : last.atMs;
  const intervalS = isForecast ? ISSUE_INTERVAL_S : usualIntervalS(rows.map((row) => row.atMs));
  return [
    {
      variable: first.variable,
      source: first.source,
      station: first.station,
      kind: first.kind,
      periodS: first.periodS,
      datum: first.datum ?? '',
      last,
      lastMs,
      intervalS,
      freshness: lastMs === null ? 'stale' : freshness(lastMs, asOfMs, intervalS),
      doubted: rows.length - believed.length,
      days: isForecast ? [] : dayShares(believed, asOfMs, days, intervalS),
    },
  ];
}

/**
 * Coverage of every series in a view.
 *
 * @param days length of the gap strip; the view must reach that far back
 */
export function coverageOf(view: RecordView, days = 30): SeriesCoverage[] {
  const series = groupBy(view.observations, (row) =>
    JSON.stringify([row.variable, row.source, row.station, row.kind, row.periodS, row.datum ?? '']),
  );
  return [...series.values()].flatMap((rows) => coverageOfSeries(rows, view.asOfMs, days));
}
