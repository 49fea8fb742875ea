/** The hours of a day, for the chart and for what is planned by them. */
import type { LakeConfig } from '../../config/types.ts';
import { sunPosition } from '../../science/index.ts';
import { HOUR_MS } from '../../units/calendar.ts';
import type { HourPoint } from '../types.ts';
import type { HourSeries, WeatherTable } from '../weather/index.ts';
import { hourEndsOf } from './sun.ts';

/** Today's local hours for the chart of the day. */
export function hourPoints(
  table: WeatherTable,
  lake: LakeConfig,
  date: string,
  pocketMinusMain: (atMs: number) => number | undefined,
): HourPoint[] {
  return hourEndsOf(date, lake.zone).map((atMs) => {
    const take = (series: HourSeries): number | undefined => series.at(atMs);
    const entries = {
      airC: take(table.air),
      humidityPct: take(table.humidity),
      windMs: take(table.wind),
      gustMs: take(table.gust),
      windDirDeg: take(table.windDir),
      cloudPct: take(table.cloud),
      rainMm: take(table.rain),
      shortwaveWm2: take(table.shortwave),
      pocketMinusMainC: pocketMinusMain(atMs),
    };
    return {
      atMs,
      sunAltitudeDeg: sunPosition(lake.latDeg, lake.lonDeg, atMs - HOUR_MS / 2).altitudeDeg,
      forecast: (table.air.originAt(atMs)?.kind ?? 'forecast') === 'forecast',
      ...Object.fromEntries(Object.entries(entries).filter(([, value]) => value !== undefined)),
    };
  });
}
