/** One gauge series of a variable: the first fresh one in the lake's order of preference. */
import type { GaugeConfig, GaugeVariable, LakeConfig } from '../config/index.ts';
import { type Doubt, freshness, type Observation, type RecordView, usualIntervalS } from '../record/index.ts';
import { at } from '../water/index.ts';
import { serviceRow } from '../vocabulary/index.ts';
import { columnsOf, type Column } from './columns.ts';
import type { SourceFact } from './facts.ts';
import type { Freshness } from './types.ts';

export interface GaugeSeries {
  readonly gauge: GaugeConfig;
  readonly source: string;
  readonly station: string;
  /** '' where the service names none. */
  readonly datum: string;
  /** Instants and believed values, oldest first, at least one; no forecasts. */
  readonly atMs: Float64Array;
  readonly values: Float64Array;
  readonly lastMs: number;
  readonly lastValue: number;
  /** 'stale' also where newer values came whose doubt leaves the present unknown. */
  readonly freshness: Freshness;
  /** The first of those values. */
  readonly disbelieved?: Doubtful;
  /** Place in the order of preference, 0 first. */
  readonly choice: number;
}

/** A value that is not believed. */
export type Doubtful = Observation & { readonly doubt: Doubt };

/**
 * Doubts after which no earlier value stands for the present: those of a lone value are lifted or left behind by the
 * next one, these last.
 */
const HIDES_THE_PRESENT: readonly Doubt['code'][] = ['doubt.levelStep', 'doubt.clock', 'doubt.twoValues'];

/** The first value of a gauge after an instant whose doubt leaves the present unknown. */
export function disbelievedSince(
  view: RecordView,
  gauge: GaugeConfig,
  sinceMs = -Infinity,
  station?: string,
): Doubtful | undefined {
  return columnsOf(view).doubted.find(
    (row): row is Doubtful =>
      row.variable === gauge.variable &&
      row.kind === 'observed' &&
      row.atMs > sinceMs &&
      row.doubt !== undefined &&
      HIDES_THE_PRESENT.includes(row.doubt.code) &&
      (station === undefined ? isOf(row, gauge) : row.station === station && row.source === gauge.service),
  );
}

/** A series of the record as far as it names its origin. */
type Origin = Pick<Observation, 'source' | 'station'>;

/** Whether a series of the record is the configured gauge's. */
export function isOf({ source, station }: Origin, gauge: GaugeConfig): boolean {
  return source === gauge.service && serviceRow(gauge.service).owns(station, gauge);
}

/** Daily values of a level stand beside the gauge's own for the year's band; they are no level of the moment. */
const isDailyLevel = ({ variable, periodS }: Column): boolean => variable === 'level' && periodS >= 86_400;

/** Every configured gauge of a variable that has any value, in order of preference. */
export function gaugeSeries(view: RecordView, lake: LakeConfig, variable: GaugeVariable): GaugeSeries[] {
  return seriesOf(view, lake, variable, (column) => !isDailyLevel(column));
}

/** Daily means of the level, stamped at their end: the first fresh gauge's, for where nothing finer is sent; else null. */
export function dailyLevels(view: RecordView, lake: LakeConfig): GaugeSeries | null {
  return firstFresh(seriesOf(view, lake, 'level', isDailyLevel));
}

function seriesOf(
  view: RecordView,
  lake: LakeConfig,
  variable: GaugeVariable,
  isWanted: (column: Column) => boolean,
): GaugeSeries[] {
  const measured = columnsOf(view)
    .of(variable)
    .filter((column) => column.kind !== 'forecast' && isWanted(column));
  return lake.gauges
    .filter((gauge) => gauge.variable === variable)
    .flatMap((gauge, choice) => {
      const own = measured.filter((column) => isOf(column, gauge));
      // Two series at one site (two depths, two sensors) are never mixed: the one with the newest value is taken.
      const newest = own.reduce<Column | undefined>(
        (best, column) => (best === undefined || lastOf(column) >= lastOf(best) ? column : best),
        undefined,
      );
      if (newest === undefined) return [];
      const { source, station, datum } = newest;
      const { atMs, values } = joined(own.filter((one) => one.station === station && one.datum === datum));
      const lastMs = at(atMs, atMs.length - 1);
      const disbelieved = disbelievedSince(view, gauge, lastMs, station);
      return [
        {
          gauge,
          source,
          station,
          datum,
          atMs,
          values,
          lastMs,
          lastValue: at(values, values.length - 1),
          freshness:
            disbelieved === undefined
              ? freshness(lastMs, view.asOfMs, usualIntervalS([...atMs.subarray(-50)]))
              : 'stale',
          ...(disbelieved === undefined ? {} : { disbelieved }),
          choice,
        },
      ];
    });
}

const lastOf = ({ atMs }: Column): number => at(atMs, atMs.length - 1);

/** Series of one station in time order; those of different kinds or periods lie among each other. */
function joined(columns: readonly Column[]): Pick<Column, 'atMs' | 'values'> {
  const [only] = columns;
  if (only !== undefined && columns.length === 1) return only;
  const rows = columns
    .flatMap(({ atMs, values }) =>
      Array.from(atMs, (instant, i) => ({ atMs: instant, value: at(values, i) })),
    )
    .sort((a, b) => a.atMs - b.atMs);
  return {
    atMs: Float64Array.from(rows, (row) => row.atMs),
    values: Float64Array.from(rows, (row) => row.value),
  };
}

/** The first that is not stale; else the one with the newest value, marked stale. */
export function bestGauge(view: RecordView, lake: LakeConfig, variable: GaugeVariable): GaugeSeries | null {
  return firstFresh(gaugeSeries(view, lake, variable));
}

function firstFresh(all: readonly GaugeSeries[]): GaugeSeries | null {
  return (
    all.find((series) => series.freshness !== 'stale') ??
    [...all].sort((a, b) => b.lastMs - a.lastMs)[0] ??
    null
  );
}

export interface GaugeRow {
  readonly atMs: number;
  readonly value: number;
}

/** Rows of a series in (fromMs, toMs], oldest first. */
export function gaugeRows({ atMs, values }: GaugeSeries, fromMs = -Infinity, toMs = Infinity): GaugeRow[] {
  const rows: GaugeRow[] = [];
  for (let i = firstAfter(atMs, fromMs); i < atMs.length && at(atMs, i) <= toMs; i += 1)
    rows.push({ atMs: at(atMs, i), value: at(values, i) });
  return rows;
}

/** Values in (fromMs, toMs], oldest first. */
export function gaugeValues(series: GaugeSeries, fromMs = -Infinity, toMs = Infinity): number[] {
  const first = firstAfter(series.atMs, fromMs);
  let last = first;
  while (last < series.atMs.length && at(series.atMs, last) <= toMs) last += 1;
  return [...series.values.subarray(first, last)];
}

/** Index of the first instant after `ms`; the length where there is none. */
function firstAfter(atMs: Float64Array, ms: number): number {
  let [low, high] = [0, atMs.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (at(atMs, middle) > ms) high = middle;
    else low = middle + 1;
  }
  return low;
}

/** The gauge as the source of a figure; of a day's mean where so said. */
export const gaugeSource = ({ gauge, choice }: GaugeSeries, isDayMean = false): SourceFact => ({
  code: 'gauge',
  service: gauge.service,
  station: gauge.station,
  where: gauge.where,
  fallback: choice > 0,
  ...(isDayMean ? { isDayMean } : {}),
});
