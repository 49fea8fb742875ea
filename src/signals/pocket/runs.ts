/** The inflow pockets of a lake, hour by hour: the model on the record's weather, corrected by readings taken in them. */
import type { LakeConfig, PocketConfig } from '../../config/index.ts';
import type { Reading } from '../../record/index.ts';
import { DAY_MS, HOUR_MS, localDateAt } from '../../units/time/index.ts';
import {
  classPocket,
  correctByReadings,
  shadedHours,
  simulatePocket,
  type PocketHour,
  type PocketRun,
  type PocketShape,
  type RefusedPocketReading,
} from '../../water/pocket/index.ts';
import { directSun, type SunnyPlace } from '../../science/index.ts';
import { sum } from '../figure.ts';
import { fishingDay } from '../light/index.ts';
import { horizonOf } from '../place/surroundings.ts';
import type { LakeTable } from '../water/index.ts';
import type { WeatherTable } from '../weather/index.ts';

/** A reading with a temperature, and the share of it that counts at its age. */
export type WaterTaken = Reading & { readonly waterC: number; readonly weight: number };

export interface SimulatedPocket {
  readonly id: string;
  readonly name: string;
  readonly basis: 'configured' | 'class';
  /** What stands around it, where something is known of that: hours of direct sun of the day. */
  readonly shade?: { readonly sunH: number; readonly guessed: boolean };
  /** Corrected by the readings taken in this pocket. */
  readonly run: PocketRun;
  /** By the weather alone. */
  readonly freeRun: PocketRun;
  /** Readings that counted, oldest first. */
  readonly used: readonly WaterTaken[];
  /** Readings that did not, oldest first, each with its reason. */
  readonly refused: readonly RefusedPocketReading<WaterTaken>[];
  /** The run as it would be without the last reading that counted; null when none did. */
  readonly runBefore: PocketRun | null;
}

/** Days before `nowMs` from which a pocket is simulated: three half-lives of the widest pocket and more. */
const SPIN_UP_DAYS = 8;
/** Age at which a reading no longer counts, days: by then weather and season have changed what a pocket gets wrong. */
const READING_DAYS = 21;
/** Days before that in which it counts less and less, so that the estimate does not jump when it leaves. */
const LEAVING_DAYS = 7;
/** No hand thermometer is better than this, K. Common practice, no source. */
const LEAST_SD_C = 0.1;
/** Days of model before the oldest reading that counts. */
const BEFORE_READING_DAYS = 4;
const TOO_OLD = { code: 'tooOld', days: READING_DAYS } as const;

function shapeOf(
  pocket: PocketConfig,
  lake: LakeConfig,
): { shape: PocketShape; basis: 'configured' | 'class' } {
  const coarse = classPocket(
    (pocket.areaM2 ?? 0) > 20_000 ? 'medium' : 'small',
    pocket.meanDepthM,
    pocket.bankDeg ?? lake.bankDeg,
  );
  const known =
    pocket.areaM2 !== undefined && pocket.meanDepthM !== undefined && pocket.watershedKm2 !== undefined;
  return {
    basis: known ? 'configured' : 'class',
    shape: {
      ...coarse,
      latDeg: lake.latDeg,
      landCover: pocket.landCover,
      ...(pocket.areaM2 === undefined ? {} : { areaM2: pocket.areaM2 }),
      ...(pocket.meanDepthM === undefined ? {} : { meanDepthM: pocket.meanDepthM }),
      ...(pocket.watershedKm2 === undefined ? {} : { watershedKm2: pocket.watershedKm2 }),
      // Curve numbers of TR-55 table 2-2, good condition, soil group B to C.
      curveNumber: pocket.curveNumber ?? { wooded: 63, mixed: 70, pasture: 72, urban: 83 }[pocket.landCover],
      ...(pocket.mouthWidthM === undefined ? {} : { mouthWidthM: pocket.mouthWidthM }),
      ...(pocket.channelLengthM === undefined ? {} : { channelLengthM: pocket.channelLengthM }),
      ...(pocket.slope === undefined ? {} : { slope: pocket.slope }),
    },
  };
}

/** Hours without a gap that the pocket model can run on: air, humidity, wind, sun, cloud and rain must all be known. */
function pocketHours(
  table: WeatherTable,
  lake: LakeConfig,
  waters: LakeTable,
  creek: ReadonlyMap<string, number>,
  { fromMs, asOfMs, toMs }: { readonly fromMs: number; readonly asOfMs: number; readonly toMs: number },
): PocketHour[] {
  const hours: PocketHour[] = [];
  for (let atMs = Math.ceil(fromMs / HOUR_MS) * HOUR_MS; atMs <= toMs; atMs += HOUR_MS) {
    const airC = table.air.at(atMs);
    const date = localDateAt(atMs - 1, lake.zone);
    const lakeC = waters.byDate.get(date)?.waterC;
    const creekC = creek.get(date);
    const rainMm = table.rain.at(atMs);
    const shortwaveWm2 = table.shortwave.at(atMs);
    const humidityPct = table.humidity.at(atMs);
    const windMs = table.wind.at(atMs);
    const cloudPct = table.cloud.at(atMs);
    if (
      airC === undefined ||
      lakeC === undefined ||
      rainMm === undefined ||
      shortwaveWm2 === undefined ||
      humidityPct === undefined ||
      windMs === undefined ||
      cloudPct === undefined
    ) {
      // A gap in the past restarts the run after it; a gap ahead ends it.
      if (atMs <= asOfMs) hours.length = 0;
      else break;
      continue;
    }
    hours.push({
      atMs,
      airC,
      humidityPct: Math.min(100, Math.max(0, humidityPct)),
      rainMm: Math.max(0, rainMm),
      windMs,
      shortwaveWm2,
      cloudPct: Math.min(100, Math.max(0, cloudPct)),
      lakeC,
      ...(creekC === undefined ? {} : { creekC }),
    });
  }
  return hours;
}

/** Hours of direct sun on a pocket's water on the day of an instant. */
function sunToday(site: SunnyPlace, lake: LakeConfig, asOfMs: number): number {
  const { dawnMs, duskMs } = fishingDay(lake, localDateAt(asOfMs, lake.zone));
  return directSun(site, dawnMs, duskMs)?.sunH ?? 0;
}

/** What stands for the pockets of a lake that has none configured; its name is kept in the archive as a pocket's. */
// eslint-disable-next-line house/no-words -- a name among names that people gave, as every issue so far kept it
const TYPICAL: PocketConfig = { id: 'typical', name: 'A typical small inflow pocket', landCover: 'mixed' };

/** Temperatures taken in one pocket up to an instant: those that count, and those that are too old to. */
function takenIn(
  pocketId: string,
  readings: readonly Reading[],
  asOfMs: number,
): { young: WaterTaken[]; old: WaterTaken[] } {
  const taken = readings.flatMap((reading): WaterTaken[] => {
    const { waterC, atMs, pocket } = reading;
    if (pocket !== pocketId || waterC === undefined || atMs > asOfMs) return [];
    const leftDays = READING_DAYS - (asOfMs - atMs) / DAY_MS;
    const depthM = Math.max(0, reading.depthM);
    const sdC = Math.max(LEAST_SD_C, reading.sdC);
    return [{ ...reading, waterC, depthM, sdC, weight: Math.min(1, leftDays / LEAVING_DAYS) }];
  });
  return {
    young: taken.filter(({ weight }) => weight > 0),
    old: taken.filter(({ weight }) => weight <= 0),
  };
}

/**
 * Each pocket of a lake on the record's weather, from days before `asOfMs` to days ahead.
 *
 * @param readings of the lake; those taken in a pocket correct that pocket and no other, and its run then begins early
 *   enough to meet the oldest of them that counts
 * @param creek daily mean of a creek between storms, degC by local date; without it the ground stands for it
 * @returns none when the hours that the model needs do not reach back two days
 */
export function simulatePockets(
  table: WeatherTable,
  lake: LakeConfig,
  waters: LakeTable,
  asOfMs: number,
  aheadDays: number,
  readings: readonly Reading[] = [],
  creek: ReadonlyMap<string, number> = new Map(),
): SimulatedPocket[] {
  // A pond-like soil temperature: the mean air of the two weeks before, which the top soil follows.
  const fortnight = table.air.within(asOfMs - 14 * DAY_MS, asOfMs);
  const soilC = fortnight.length > 48 ? Math.max(1, sum(fortnight) / fortnight.length) : undefined;
  const pockets = lake.pockets.length > 0 ? lake.pockets : [TYPICAL];
  return pockets.flatMap((pocket) => {
    const { young, old } = takenIn(pocket.id, readings, asOfMs);
    const fromMs = Math.min(
      asOfMs - SPIN_UP_DAYS * DAY_MS,
      ...young.map(({ atMs }) => atMs - BEFORE_READING_DAYS * DAY_MS),
    );
    const toMs = asOfMs + aheadDays * DAY_MS;
    const hours = pocketHours(table, lake, waters, creek, { fromMs, asOfMs, toMs });
    const first = hours[0];
    if (!first || first.atMs > asOfMs - 2 * DAY_MS) return [];
    const before = table.rain.within(first.atMs - 5 * DAY_MS, first.atMs);
    const antecedent5dRainMm = before.length >= 100 ? sum(before) : undefined;
    const { shape, basis } = shapeOf(pocket, lake);
    const around = horizonOf(pocket, lake);
    const site = {
      latDeg: lake.latDeg,
      lonDeg: lake.lonDeg,
      ...pocket.position,
      horizonDeg: around?.horizonDeg ?? [],
    };
    const free = simulatePocket(shape, around === null ? hours : shadedHours(hours, site), {
      basis,
      asOfMs,
      ...(around === null ? {} : { openHours: hours }),
      ...(antecedent5dRainMm === undefined ? {} : { antecedent5dRainMm }),
      ...(soilC === undefined ? {} : { soilC }),
    });
    const { run, used, refused } = correctByReadings(free, young);
    const last = used.at(-1);
    return [
      {
        id: pocket.id,
        name: pocket.name,
        basis,
        ...(around === null
          ? {}
          : { shade: { sunH: sunToday(site, lake, asOfMs), guessed: around.guessed } }),
        run,
        freeRun: free,
        used,
        refused: [
          ...old.map((reading) => ({ reading, reason: TOO_OLD, kind: 'incomparable' as const })),
          ...refused,
        ].sort((a, b) => a.reading.atMs - b.reading.atMs),
        runBefore:
          last === undefined
            ? null
            : correctByReadings(
                free,
                young.filter((reading) => reading !== last),
              ).run,
      },
    ];
  });
}
