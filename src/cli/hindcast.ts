import { existsSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import type { Command } from 'commander';
import { dewPointC } from '../science/index.ts';
import { expandQuantities, ThawlineError } from '../units/index.ts';
import { nowcastLake, type LakeDay, type WaterReading, type WeatherDay } from '../water/lake/index.ts';
import { readCsv } from './csvTable.ts';
import { reportText, type HindcastReport } from './hindcastReport.ts';
import { scoreHindcast } from './hindcastScore.ts';

interface HindcastFlags {
  readonly weather: string;
  readonly readings?: string;
  readonly lat: number;
  readonly meanDepth: number;
  readonly area?: number;
  readonly readingLag: number;
  readonly out: string;
  readonly json?: boolean;
}

/** Area taken for a lake whose area nobody gave, km2; it matters little beside the depth. */
const DEFAULT_AREA_KM2 = 2;
/** Standard errors taken where the file gives none, K: daily mean of a logger, one value at depth or near the surface. */
const DEFAULT_SD_C = { dailyMean: 0.1, atDepth: 0.3, surface: 0.5 };
const DEFAULT_DEPTH_M = { dailyMean: 1, single: 0.3 };

/** Adds `hindcast`: test the lake temperature model on anyone's own logger. */
export function addHindcastCommand(program: Command): void {
  program
    .command('hindcast')
    .description('estimate past water temperature from weather and readings, strictly causally, and score it')
    .requiredOption(
      '--weather <csv>',
      'daily weather: date, air_c [air_min_c, air_max_c, wind_ms, solar_wm2, rh_pct, rain_mm]',
    )
    .option('--readings <csv>', 'water readings: date, water_c [time, depth_m, sd_c]')
    .requiredOption('--lat <deg>', 'latitude, degrees, south negative', within('--lat', -90, 90))
    .requiredOption('--mean-depth <m>', 'mean depth of the lake, m', within('--mean-depth', 0.1, 500))
    .option(
      '--area <km2>',
      `surface area, km2 (taken as ${DEFAULT_AREA_KM2} when absent)`,
      within('--area', 0.001, 500_000),
    )
    .option(
      '--reading-lag <days>',
      'days until a reading may be used',
      within('--reading-lag', 0, 365, true),
      1,
    )
    .requiredOption('--out <csv>', 'file to write: date, water_c, low_c, high_c, reading_age_days')
    .option('--json', 'print the scores as JSON')
    .action((flags: HindcastFlags) => {
      const report = hindcast(flags);
      process.stdout.write(flags.json === true ? `${JSON.stringify(report, null, 2)}\n` : reportText(report));
    });
}

function within(flag: string, low: number, high: number, whole = false): (text: string) => number {
  return (text) => {
    const value = text.trim() === '' ? Number.NaN : Number(text);
    if (!(value >= low && value <= high) || (whole && !Number.isInteger(value)))
      throw new ThawlineError(
        'usage',
        `${flag} is "${text}"; give a ${whole ? 'whole ' : ''}number from ${low} to ${high} without a unit.`,
      );
    return value;
  };
}

function hindcast(flags: HindcastFlags): HindcastReport {
  const weather = readWeather(flags.weather);
  const readings = flags.readings === undefined ? [] : readReadings(flags.readings);
  const site = { latDeg: flags.lat, meanDepthM: flags.meanDepth, areaKm2: flags.area ?? DEFAULT_AREA_KM2 };
  const { days, refused } = nowcastLake(site, weather, readings, { readingLagDays: flags.readingLag });
  if (days.length === 0)
    throw new ThawlineError(
      'config',
      `${flags.weather} has no air temperature on any day; fill the column air_c.`,
    );
  writeWhole(flags.out, outputCsv(days));
  const truth = dailyTruth(readings);
  return {
    out: flags.out,
    days: days.length,
    firstDate: days[0]?.date ?? '',
    lastDate: days.at(-1)?.date ?? '',
    daysWithoutEstimate: weather.length - days.length > 0 ? weather.length - days.length : 0,
    readings: readings.length,
    readingLagDays: flags.readingLag,
    refused: refused.map(({ reading, reason }) => ({
      date: reading.date,
      waterC: reading.waterC,
      reason: expandQuantities(reason, 'metric'),
    })),
    score: scoreHindcast(days, truth, heldReading(truth, days, flags.readingLag)),
  };
}

function readWeather(path: string): WeatherDay[] {
  const seen = new Map<string, number>();
  const weather = readCsv(path, ['date', 'air_c']).map((row): WeatherDay => {
    const date = row.date('date');
    const before = seen.get(date);
    if (before !== undefined)
      throw row.complain('date', `each date once (line ${before} has it already; keep one line a day)`);
    seen.set(date, row.line);
    const airMinC = row.number('air_min_c', -60, 55);
    const airMaxC = row.number('air_max_c', -60, 55);
    const solarWm2 = row.number('solar_wm2', -5, 600);
    const windMs = row.number('wind_ms', 0, 60);
    const rainMm = row.number('rain_mm', 0, 2000);
    const rhPct = row.number('rh_pct', 0, 105);
    const airC = row.number('air_c', -60, 55) ?? null;
    return {
      date,
      airC,
      ...(airMinC !== undefined && { airMinC }),
      ...(airMaxC !== undefined && { airMaxC }),
      ...(solarWm2 !== undefined && { solarWm2 }),
      ...(windMs !== undefined && { windMs }),
      ...(rainMm !== undefined && { rainMm }),
      ...(rhPct !== undefined && airC !== null && { dewPointC: dewPointC(airC, Math.min(100, rhPct)) }),
    };
  });
  if (weather.length === 0)
    throw new ThawlineError('config', `${path} has a header but no lines; give at least one day of weather.`);
  return weather;
}

function readReadings(path: string): WaterReading[] {
  return readCsv(path, ['date', 'water_c']).flatMap((row): WaterReading[] => {
    const date = row.date('date');
    const waterC = row.number('water_c', -5, 60);
    if (waterC === undefined) return [];
    const time = row.text('time');
    const hour = time === undefined ? undefined : decimalHour(time);
    if (hour === null) throw row.complain('time', 'a local time like 07:10');
    const depthM =
      row.number('depth_m', 0, 300) ??
      (hour === undefined ? DEFAULT_DEPTH_M.dailyMean : DEFAULT_DEPTH_M.single);
    const single = depthM < 0.8 ? DEFAULT_SD_C.surface : DEFAULT_SD_C.atDepth;
    const sdC = row.number('sd_c', 0, 10) ?? (hour === undefined ? DEFAULT_SD_C.dailyMean : single);
    return [{ date, waterC, depthM, sdC, source: 'logger', ...(hour !== undefined && { hour }) }];
  });
}

function decimalHour(time: string): number | null {
  const match = /^(\d{1,2}):(\d{2})(?::\d{2})?$/.exec(time);
  const hour = Number(match?.[1]);
  const minute = Number(match?.[2]);
  return match !== null && hour < 24 && minute < 60 ? hour + minute / 60 : null;
}

/** Mean of the readings of a day that lie nearest to 1 m. */
function dailyTruth(readings: readonly WaterReading[]): Map<string, number> {
  const byDate = new Map<string, { off: number; sum: number; count: number }>();
  for (const r of readings) {
    const off = Math.abs(Math.max(0.5, r.depthM) - 1);
    const cell = byDate.get(r.date);
    if (cell === undefined || off < cell.off - 0.25) byDate.set(r.date, { off, sum: r.waterC, count: 1 });
    else if (off <= cell.off + 0.25) {
      cell.sum += r.waterC;
      cell.count++;
    }
  }
  return new Map(
    [...byDate].sort(([a], [b]) => a.localeCompare(b)).map(([date, c]) => [date, c.sum / c.count]),
  );
}

function heldReading(
  truth: ReadonlyMap<string, number>,
  days: readonly LakeDay[],
  lag: number,
): (date: string) => number | undefined {
  const held = new Map<string, number>();
  let last: number | undefined;
  const dates = [...truth.keys()];
  let next = 0;
  for (const day of days) {
    const known = new Date(Date.parse(`${day.date}T00:00:00Z`) - lag * 86_400_000).toISOString().slice(0, 10);
    for (let date = dates[next]; date !== undefined && date <= known; date = dates[++next])
      last = truth.get(date);
    if (last !== undefined) held.set(day.date, last);
  }
  return (date) => held.get(date);
}

function outputCsv(days: readonly LakeDay[]): string {
  const lines = days.map((d) =>
    [d.date, d.waterC.toFixed(2), d.lowC.toFixed(2), d.highC.toFixed(2), d.readingAgeDays ?? ''].join(','),
  );
  return `date,water_c,low_c,high_c,reading_age_days\n${lines.join('\n')}\n`;
}

/** Writes beside the target and renames, so that nobody ever reads half a file. */
function writeWhole(path: string, content: string): void {
  if (!existsSync(dirname(path)))
    throw new ThawlineError(
      'usage',
      `The folder of ${path} does not exist; create it or choose another --out.`,
    );
  const beside = `${path}.${process.pid}.part`;
  try {
    writeFileSync(beside, content);
    renameSync(beside, path);
  } catch (cause) {
    rmSync(beside, { force: true });
    throw new ThawlineError('usage', `Cannot write ${path}; choose another --out.`, { cause });
  }
}
