import { existsSync } from 'node:fs';
import { dirname } from 'node:path';
import type { Command } from 'commander';
import { expandQuantities, ThawlineError } from '../units/index.ts';
import { dayNumber } from '../units/time/index.ts';
import { LONGEST_BRIDGED_GAP_DAYS } from '../water/index.ts';
import {
  nowcastLake,
  type LakeDay,
  type LakeSite,
  type WaterReading,
  type WeatherDay,
} from '../water/lake/index.ts';
import { RIVER_KINDS } from '../vocabulary/index.ts';
import { nowcastRiver, type RiverKind, type RiverWeatherDay } from '../water/river/index.ts';
import { estimatesCsv, readReadings, readWeather } from './hindcastFiles.ts';
import { reportText, type HindcastReport } from './hindcastReport.ts';
import { scoreHindcast } from './hindcastScore.ts';
import { say, wordsFor } from '../words/index.ts';
import { asDailyMeans, dailyTruth, heldReading } from './hindcastTruth.ts';
import { refuseFahrenheitAir, refuseFahrenheitReadings } from './hindcastUnits.ts';
import { writeWhole } from './output.ts';

interface HindcastFlags {
  readonly weather?: string;
  readonly readings?: string;
  readonly lat?: number;
  readonly meanDepth?: number;
  /** Kind of river, or true where the flag stands alone. */
  readonly river?: string | true;
  readonly watershed?: number;
  readonly area?: number;
  readonly readingLag: number;
  readonly out: string;
  readonly json?: boolean;
}

/** Area taken for a lake whose area nobody gave, km2; it matters little beside the depth. */
const DEFAULT_AREA_KM2 = 2;
/** Everything a record can hold, days. */
const ALL_DAYS = 366 * 40;

/** Adds `hindcast`: test the lake temperature model on anyone's own logger. */
export function addHindcastCommand(program: Command): void {
  program
    .command('hindcast [lake]')
    .description(
      'estimate past water temperature of a lake or river from weather and readings, strictly causally, and score it',
    )
    .option(
      '--weather <csv>',
      'daily weather: date, air_c [air_min_c, air_max_c, wind_ms, solar_wm2, rh_pct, rain_mm, flow_m3s]',
    )
    .option('--readings <csv>', 'water readings: date, water_c [time, depth_m, sd_c]')
    .option('--lat <deg>', 'latitude, degrees, south negative', within('--lat', -90, 90))
    .option(
      '--mean-depth <m>',
      'mean depth of the lake, m; needed for a lake',
      within('--mean-depth', 0.1, 500),
    )
    .option('--river [kind]', `a river instead of a lake: ${RIVER_KINDS.join(', ')} (lowland when left out)`)
    .option(
      '--watershed <km2>',
      'area that drains to the river, km2',
      within('--watershed', 0.01, 10_000_000),
    )
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
    .addHelpText(
      'after',
      `
With a lake of the configuration, weather and readings come from its record and
position, depth, area and kind of river from the configuration.

Temperatures are degrees Celsius, dates local. Up to ${LONGEST_BRIDGED_GAP_DAYS} days on end without
air_c, as empty fields or as missing lines, are bridged with a wider interval;
a longer gap has no estimate from then on, and the model starts anew after it.`,
    )
    .action((lake: string | undefined, flags: HindcastFlags, command: Command) => {
      if (lake !== undefined) return fromRecord(lake, flags, command);
      print(hindcast(fromFiles(flags), flags), flags);
    });
}

const print = (report: HindcastReport, { json }: HindcastFlags): void => {
  process.stdout.write(json === true ? `${JSON.stringify(report, null, 2)}\n` : reportText(report));
};

/** What a hindcast is made from. */
interface Past {
  readonly water: Water;
  readonly weather: readonly RiverWeatherDay[];
  readonly readings: readonly WaterReading[];
  /** Where they are from, for what has to be said of them. */
  readonly from: { readonly weather: string; readonly readings?: string };
}

function fromFiles(flags: HindcastFlags): Past {
  const { weather: path, lat } = flags;
  if (path === undefined || lat === undefined)
    throw new ThawlineError(
      'usage',
      `${path === undefined ? '--weather' : '--lat'} is missing: give the weather's file and the latitude, or name a lake of the configuration, whose record has them.`,
    );
  const water = waterOf(flags, lat);
  const weather = readWeather(path);
  refuseFahrenheitAir(path, weather, lat);
  return {
    water,
    weather,
    readings: flags.readings === undefined ? [] : readReadings(flags.readings),
    from: { weather: path, ...(flags.readings === undefined ? {} : { readings: flags.readings }) },
  };
}

/** A lake of the configuration on what its own record holds; nothing is asked of any service. */
async function fromRecord(lakeId: string, flags: HindcastFlags, command: Command): Promise<void> {
  const given = (['weather', 'readings', 'lat', 'meanDepth', 'area', 'river', 'watershed'] as const).filter(
    (name) => flags[name] !== undefined,
  );
  if (given.length > 0)
    throw new ThawlineError(
      'usage',
      `The record and the configuration of ${lakeId} say what ${given.map((name) => `--${name === 'meanDepth' ? 'mean-depth' : name}`).join(', ')} would: leave ${given.length === 1 ? 'it' : 'them'} out, or leave the lake out.`,
    );
  const [{ withContext }, { pastWater }, { lakeById }] = await Promise.all([
    import('./context.ts'),
    import('../signals/index.ts'),
    import('../config/index.ts'),
  ]);
  await withContext(command, async ({ config, record }) => {
    const lake = lakeById(config, lakeId);
    const view = await record.view(lake.id, Date.now(), { days: ALL_DAYS, archive: true });
    const { weather, readings } = pastWater(view, lake);
    if (weather.length === 0)
      throw new ThawlineError(
        'usage',
        `The record holds no weather of ${lake.name}: run thawline brief ${lake.id}, or thawline replay ${lake.id} for its past.`,
      );
    const water: Water =
      lake.waterBody === 'tailwater'
        ? { kind: 'river', river: lake.riverKind ?? 'regulated', about: { latDeg: lake.latDeg } }
        : {
            kind: 'lake',
            site: { latDeg: lake.latDeg, meanDepthM: lake.meanDepthM, areaKm2: lake.areaKm2 },
          };
    const from = { weather: `The record of ${lake.name}` };
    print(hindcast({ water, weather, readings, from }, flags), flags);
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

function hindcast({ water, weather, readings, from }: Past, flags: HindcastFlags): HindcastReport {
  const options = { readingLagDays: flags.readingLag };
  const { days, refused } =
    water.kind === 'lake'
      ? nowcastLake(water.site, weather, readings, options)
      : nowcastRiver(water.river, inOrder(weather), readings, { ...options, ...water.about });
  if (days.length === 0)
    throw new ThawlineError(
      'usage',
      `${from.weather} has no air temperature on any day; fill the column air_c.`,
    );
  if (from.readings !== undefined) refuseFahrenheitReadings(from.readings, readings, days);
  if (!existsSync(dirname(flags.out)))
    throw new ThawlineError(
      'usage',
      `The folder of ${flags.out} does not exist; create it or choose another --out.`,
    );
  writeWhole(flags.out, estimatesCsv(days));
  // A river is mixed: a reading's hour is not converted there, it only counts for less.
  const asMeans = water.kind === 'lake' ? asDailyMeans(water.site, weather, readings) : readings;
  const truth = dailyTruth(asMeans);
  // With no lag the last reading is the very value to be told, and would be compared with itself.
  const held =
    flags.readingLag === 0 ? (): undefined => undefined : heldReading(truth, days, flags.readingLag);
  const doubted = new Set(
    refused.filter(({ dating }) => dating === undefined).map(({ reading }) => reading.date),
  );
  return {
    out: flags.out,
    days: days.length,
    firstDate: days[0]?.date ?? '',
    lastDate: days.at(-1)?.date ?? '',
    ...gaps(weather, days),
    readings: readings.length,
    readingsConverted: asMeans === readings ? 0 : readings.filter(({ hour }) => hour !== undefined).length,
    readingLagDays: flags.readingLag,
    refused: refused.map(({ reading, reason }) => ({
      date: reading.date,
      waterC: reading.waterC,
      reason: expandQuantities(say(wordsFor('en').water.refusal, reason), 'metric'),
    })),
    scoredDaysDoubted: days.filter(({ date }) => truth.has(date) && doubted.has(date)).length,
    score: scoreHindcast(days, truth, held),
  };
}

type Water =
  | { readonly kind: 'lake'; readonly site: LakeSite }
  | {
      readonly kind: 'river';
      readonly river: RiverKind;
      readonly about: { readonly latDeg: number; readonly watershedKm2?: number };
    };

/** @throws ThawlineError `usage` for a lake without depth, an unknown kind of river, or what belongs to the other */
function waterOf({ meanDepth, area, river, watershed }: HindcastFlags, lat: number): Water {
  if (river === undefined) {
    if (watershed !== undefined)
      throw new ThawlineError('usage', '--watershed belongs to a river; add --river or leave it out.');
    if (meanDepth === undefined)
      throw new ThawlineError(
        'usage',
        'A lake needs --mean-depth, its mean depth in m; a river needs --river instead.',
      );
    return { kind: 'lake', site: { latDeg: lat, meanDepthM: meanDepth, areaKm2: area ?? DEFAULT_AREA_KM2 } };
  }
  if (meanDepth !== undefined || area !== undefined)
    throw new ThawlineError(
      'usage',
      '--mean-depth and --area belong to a lake; leave them out beside --river.',
    );
  const kind = RIVER_KINDS.find((known) => known === (river === true ? 'lowland' : river));
  if (kind === undefined)
    throw new ThawlineError('usage', `--river is "${String(river)}"; give one of ${RIVER_KINDS.join(', ')}.`);
  return {
    kind: 'river',
    river: kind,
    about: { latDeg: lat, ...(watershed !== undefined && { watershedKm2: watershed }) },
  };
}

const inOrder = <D extends { readonly date: string }>(days: readonly D[]): D[] =>
  [...days].sort((a, b) => (a.date < b.date ? -1 : 1));

/** Days of the calendar from the first line of weather to the last that have no air temperature, by what became of them. */
function gaps(
  weather: readonly WeatherDay[],
  days: readonly LakeDay[],
): Pick<HindcastReport, 'daysBridged' | 'daysWithoutEstimate'> {
  const dates = weather.map(({ date }) => date).sort();
  const calendar = dayNumber(dates.at(-1) ?? '') - dayNumber(dates[0] ?? '') + 1;
  const measured = weather.filter(
    ({ airC, airMinC, airMaxC }) => airC !== null || (airMinC !== undefined && airMaxC !== undefined),
  );
  return { daysBridged: days.length - measured.length, daysWithoutEstimate: calendar - days.length };
}
