/** One gauge series of a variable: the first fresh one in the lake's order of preference. */
import type { GaugeConfig, GaugeVariable, LakeConfig } from '../config/types.ts';
import { freshness, usualIntervalS } from '../record/freshness.ts';
import type { Observation, RecordView } from '../record/types.ts';
import { serviceRow } from '../vocabulary/index.ts';
import type { Freshness } from './types.ts';

export interface GaugeSeries {
  readonly gauge: GaugeConfig;
  /** Oldest first; doubted values and forecasts left out. */
  readonly rows: readonly Observation[];
  readonly lastMs: number;
  readonly freshness: Freshness;
  /** Place in the order of preference, 0 first. */
  readonly choice: number;
}

/** A series of the record as far as it names its origin. */
type Origin = Pick<Observation, 'source' | 'station'>;

/** Whether a series of the record is the configured gauge's. */
export function isOf({ source, station }: Origin, gauge: GaugeConfig): boolean {
  return source === gauge.service && serviceRow(gauge.service).owns(station, gauge);
}

/** Daily values of a level stand beside the gauge's own for the year's band; they are no current level. */
const isDailyLevel = (row: Observation): boolean => row.variable === 'level' && row.periodS >= 86_400;

function belongs(row: Observation, gauge: GaugeConfig): boolean {
  if (row.variable !== gauge.variable || row.kind === 'forecast' || isDailyLevel(row)) return false;
  return isOf(row, gauge);
}

/** Every configured gauge of a variable that has any value, in order of preference. */
export function gaugeSeries(view: RecordView, lake: LakeConfig, variable: GaugeVariable): GaugeSeries[] {
  return lake.gauges
    .filter((gauge) => gauge.variable === variable)
    .flatMap((gauge, choice) => {
      const all = view.observations
        .filter((row) => belongs(row, gauge) && row.doubt === undefined)
        .sort((a, b) => a.atMs - b.atMs);
      // Two series at one site (two depths, two sensors) are never mixed: the one with the newest value is taken.
      const newest = all.at(-1);
      const rows = newest
        ? all.filter((row) => row.station === newest.station && (row.datum ?? '') === (newest.datum ?? ''))
        : [];
      const lastMs = rows.at(-1)?.atMs;
      return lastMs === undefined
        ? []
        : [
            {
              gauge,
              rows,
              lastMs,
              freshness: freshness(lastMs, view.asOfMs, usualIntervalS(rows.map((row) => row.atMs))),
              choice,
            },
          ];
    });
}

/** The first that is not stale; else the one with the newest value, marked stale. */
export function bestGauge(view: RecordView, lake: LakeConfig, variable: GaugeVariable): GaugeSeries | null {
  const all = gaugeSeries(view, lake, variable);
  return (
    all.find((series) => series.freshness !== 'stale') ??
    [...all].sort((a, b) => b.lastMs - a.lastMs)[0] ??
    null
  );
}

/** The gauge in the words of a briefing's sources. */
export function gaugeWords(series: GaugeSeries): string {
  const { gauge, choice } = series;
  const { gaugeName } = serviceRow(gauge.service);
  const name = gauge.service === 'csv' ? gaugeName : `${gaugeName} ${gauge.station.replace(/^USGS-/, '')}`;
  return `${name}, ${gauge.where}${choice > 0 ? ' (fallback)' : ''}`;
}
