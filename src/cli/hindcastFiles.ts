/** The files of `hindcast`: weather and readings in, estimates out. */
import { dewPointC } from '../science/index.ts';
import { ThawlineError } from '../units/index.ts';
import type { LakeDay, WaterReading } from '../water/lake/index.ts';
import type { RiverWeatherDay } from '../water/river/index.ts';
import { readCsv, type NumberRange } from './csvTable.ts';
import { CONVERT_FAHRENHEIT } from './hindcastUnits.ts';

/** Standard errors taken where the file gives none, K: daily mean of a logger, one value at depth or near the surface. */
const DEFAULT_SD_C = { dailyMean: 0.1, atDepth: 0.3, surface: 0.5 };
const DEFAULT_DEPTH_M = { dailyMean: 1, single: 0.3 };

/** Hotter than any day's air or any lake, and a usual value in degrees Fahrenheit. */
const ifAbove = { upTo: 140, remedy: CONVERT_FAHRENHEIT };
const AIR_C: NumberRange = { low: -60, high: 55, ifAbove };
const WATER_C: NumberRange = { low: -5, high: 60, ifAbove };

/** @throws ThawlineError `usage` naming file, line and column of what cannot be read, or of a date that comes twice */
export function readWeather(path: string): RiverWeatherDay[] {
  const seen = new Map<string, number>();
  const weather = readCsv(path, ['date', 'air_c']).map((row): RiverWeatherDay => {
    const date = row.date('date');
    const before = seen.get(date);
    if (before !== undefined)
      throw row.complain('date', 'each date once', `line ${before} has it already; keep one line a day`);
    seen.set(date, row.line);
    const airMinC = row.number('air_min_c', AIR_C);
    const airMaxC = row.number('air_max_c', AIR_C);
    const solarWm2 = row.number('solar_wm2', { low: -5, high: 600 });
    const windMs = row.number('wind_ms', { low: 0, high: 60 });
    const rainMm = row.number('rain_mm', { low: 0, high: 2000 });
    const rhPct = row.number('rh_pct', { low: 0, high: 105 });
    const dischargeM3s = row.number('flow_m3s', { low: 0, high: 1_000_000 });
    const airC = row.number('air_c', AIR_C) ?? null;
    return {
      date,
      airC,
      ...(airMinC !== undefined && { airMinC }),
      ...(airMaxC !== undefined && { airMaxC }),
      ...(solarWm2 !== undefined && { solarWm2 }),
      ...(windMs !== undefined && { windMs }),
      ...(rainMm !== undefined && { rainMm }),
      ...(dischargeM3s !== undefined && { dischargeM3s }),
      ...(rhPct !== undefined && airC !== null && { dewPointC: dewPointC(airC, Math.min(100, rhPct)) }),
    };
  });
  if (weather.length === 0)
    throw new ThawlineError('usage', `${path} has a header but no lines; give at least one day of weather.`);
  return weather;
}

/** @throws ThawlineError `usage` naming file, line and column of what cannot be read */
export function readReadings(path: string): WaterReading[] {
  return readCsv(path, ['date', 'water_c']).flatMap((row): WaterReading[] => {
    const date = row.date('date');
    const waterC = row.number('water_c', WATER_C);
    if (waterC === undefined) return [];
    const time = row.text('time');
    const hour = time === undefined ? undefined : decimalHour(time);
    if (hour === null) throw row.complain('time', 'a local time like 07:10');
    const depthM =
      row.number('depth_m', { low: 0, high: 300 }) ??
      (hour === undefined ? DEFAULT_DEPTH_M.dailyMean : DEFAULT_DEPTH_M.single);
    const single = depthM < 0.8 ? DEFAULT_SD_C.surface : DEFAULT_SD_C.atDepth;
    const sdC =
      row.number('sd_c', { low: 0, high: 10 }) ?? (hour === undefined ? DEFAULT_SD_C.dailyMean : single);
    return [{ date, waterC, depthM, sdC, source: 'logger', ...(hour !== undefined && { hour }) }];
  });
}

function decimalHour(time: string): number | null {
  const match = /^(\d{1,2}):(\d{2})(?::\d{2})?$/.exec(time);
  const hour = Number(match?.[1]);
  const minute = Number(match?.[2]);
  return match !== null && hour < 24 && minute < 60 ? hour + minute / 60 : null;
}

/** Estimates as CSV, one line a day that has one. */
export function estimatesCsv(days: readonly LakeDay[]): string {
  const lines = days.map((d) =>
    [d.date, d.waterC.toFixed(2), d.lowC.toFixed(2), d.highC.toFixed(2), d.readingAgeDays ?? ''].join(','),
  );
  return `date,water_c,low_c,high_c,reading_age_days\n${lines.join('\n')}\n`;
}
