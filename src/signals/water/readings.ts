/** Readings of the main lake: a gauge thermometer's days, and what anglers took. */
import type { LakeConfig } from '../../config/index.ts';
import type { Reading, RecordView } from '../../record/index.ts';
import { DAY_MS, isoDate, localDateAt, localDayAt, localHourAt } from '../../units/time/index.ts';
import { item } from '../../units/index.ts';
import type { WaterReading } from '../../water/lake/index.ts';
import { mean } from '../figure.ts';
import { gaugeRows, gaugeSeries, type GaugeRow, type GaugeSeries } from '../gauge.ts';

/** A gauge thermometer's day counts as a daily mean from this many values spread over it; fewer stand for their hour. */
export const DAILY_MEAN_FROM = 12;

/** The gauge thermometer that stands for the main lake. */
export function mainThermometer(view: RecordView, lake: LakeConfig): GaugeSeries | undefined {
  return gaugeSeries(view, lake, 'water_temp').find(({ gauge }) => gauge.standsIn !== 'elsewhere');
}

/** Values of a series by local date, in time order. */
export function byLocalDate(series: GaugeSeries, zone: string): Map<string, GaugeRow[]> {
  const byDay = new Map<number, GaugeRow[]>();
  for (const row of gaugeRows(series)) {
    const day = localDayAt(row.atMs, zone);
    const rows = byDay.get(day);
    if (rows === undefined) byDay.set(day, [row]);
    else rows.push(row);
  }
  return new Map([...byDay].map(([day, rows]) => [isoDate(day), rows]));
}

/**
 * Readings of the main lake in date order: each day of the gauge thermometer as a daily mean or, with too few values, its
 * last one; and what anglers read. Readings in pockets are left out.
 */
export function lakeReadings(view: RecordView, lake: LakeConfig): WaterReading[] {
  const byHand = anglerReadings(view, lake).map(({ water }) => water);
  return inDateOrder([...thermometerDays(mainThermometer(view, lake), lake.zone), ...byHand]);
}

export const inDateOrder = (readings: readonly WaterReading[]): WaterReading[] =>
  [...readings].sort((a, b) => a.date.localeCompare(b.date));

/** A thermometer's days, in time order; none without one. */
export function thermometerDays(thermometer: GaugeSeries | undefined, zone: string): WaterReading[] {
  if (thermometer === undefined) return [];
  const depthM = thermometer.gauge.depthM ?? 1;
  return [...byLocalDate(thermometer, zone)].map(([date, rows]): WaterReading => {
    const [first, last] = [item(rows, 0), item(rows, rows.length - 1)];
    const base = { date, depthM, sdC: 0.3, source: 'gauge' as const };
    const whole = rows.length >= DAILY_MEAN_FROM && last.atMs - first.atMs > 0.75 * DAY_MS;
    return whole
      ? { ...base, waterC: mean(rows.map((row) => row.value)) ?? last.value }
      : { ...base, hour: localHourAt(last.atMs, zone), waterC: last.value };
  });
}

/** A reading as it was given, and as the model reads it. */
export interface AnglerReading {
  readonly kept: Reading;
  readonly water: WaterReading;
}

/** What anglers took in the main lake, oldest first, each as the model reads it. */
export function anglerReadings(view: RecordView, lake: LakeConfig): AnglerReading[] {
  return view.readings
    .flatMap((kept) =>
      kept.waterC === undefined || kept.pocket !== undefined
        ? []
        : [
            {
              kept,
              water: {
                date: localDateAt(kept.atMs, lake.zone),
                hour: localHourAt(kept.atMs, lake.zone),
                waterC: kept.waterC,
                depthM: kept.depthM,
                sdC: kept.sdC,
                source: 'angler' as const,
              },
            },
          ],
    )
    .sort((a, b) => a.kept.atMs - b.kept.atMs);
}
