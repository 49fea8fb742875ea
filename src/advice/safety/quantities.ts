import type { SafetyQuantity, SafetyTable } from '../../config/index.ts';
import type { Conditions, SignalId, WaterBody } from '../../signals/index.ts';
import { fetchWaves, heatIndexC, windChillC } from '../../science/index.ts';
import { fogHours } from './fog.ts';
import type { SafetyExtras } from './types.ts';

/** A number with the worst it may be within its stated interval, on either side. */
export interface Judged {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

export type Quantities = Readonly<Partial<Record<SafetyQuantity, Judged>>>;

const exactly = (value: number): Judged => ({ value, low: value, high: value });

/**
 * Every number the table may judge, from the day's signals; what cannot be known is left out. An unknown wind is no
 * reason to leave out the wind chill: it is then computed with the table's assumed wind.
 */
export function safetyQuantities(
  conditions: Conditions,
  extras: SafetyExtras,
  assumed: SafetyTable['assumed'],
): Quantities {
  const read = (id: SignalId): Judged | undefined => {
    const figure = conditions.signals[id];
    if (figure === undefined) return undefined;
    return { value: figure.value, low: figure.low ?? figure.value, high: figure.high ?? figure.value };
  };
  const water = read('waterC');
  const airMax = read('airMaxTodayC') ?? read('airNowC');
  const airMin = read('airMinTodayC') ?? read('airNowC');
  const night = coldest(read('airMinLastNightC'), read('airMinTodayC'));
  const coldestAir = coldest(night, airMin);
  const fetchM = extras.fetchM ?? conditions.signals.fetchM?.value;
  const wind = larger(read('windMs'), read('windMaxMs'));
  const still = exactly(assumed.windMs);
  const moments = momentsOf(extras, coldestAir, wind ?? still);
  const felt = coldestFelt(moments);
  const level6h = read('level6hM');
  // A rise over six hours is at least that over the day, and water that rose since morning may go on.
  const level24h = read('level24hM') ?? (level6h !== undefined && level6h.value > 0 ? level6h : undefined);
  const rate = larger(read('levelRateMPerH'), level6h && scaled(level6h, 1 / 6));
  const fall = larger(opposed(read('levelRateMPerH')), opposed(level6h && scaled(level6h, 1 / 6)));
  const normal = read('levelVsNormalM');
  const generation = larger(read('generationOn'), mostOf(conditions, extras, 'generationOn'));
  const all: Partial<Record<SafetyQuantity, Judged | undefined>> = {
    waterC: water,
    airMinusWaterC: water && airMax && exactly(airMax.value - water.value),
    airMaxC: airMax,
    windChillC: felt && exactly(felt.chillC),
    // Where the air is coldest to the skin in no wind it is cold, and no wind chill.
    stillAirC: felt?.chillC === felt?.airC ? felt && exactly(felt.airC) : undefined,
    runningWindChillC: runningChill(moments, extras.runningBoatMs),
    // Air of which nobody knows how moist it is.
    airUnjudgedC: extras.humidityPct === undefined ? airMax : undefined,
    heatIndexC:
      airMax && extras.humidityPct !== undefined
        ? exactly(heatIndexC(airMax.value, Math.min(100, Math.max(0, extras.humidityPct))))
        : undefined,
    windMs: wind,
    gustMs: read('gustMs'),
    waveM: waves(wind, fetchM),
    rise24hM: level24h,
    fall24hM: level24h && opposite(level24h),
    riseRateMPerH: rate,
    rise72hM: read('level72hM'),
    fallRateMPerH: fall,
    riseNext24hM: read('levelNext24hM'),
    belowNormalM: normal && opposite(normal),
    aboveNormalM: normal,
    dischargeRatio: read('dischargeRatio'),
    generationOn: generation,
    // Hours ahead, told or usual, are no water that runs now.
    generationNow:
      extras.generationNow === undefined
        ? (read('generationOn') ?? (generation && exactly(0)))
        : exactly(extras.generationNow),
    currentMs: read('currentMs'),
    releaseStart: isBelowDam(conditions, extras) ? mostOf(conditions, extras, 'releaseStart') : undefined,
    belowDam: exactly(extras.belowDam ? 1 : 0),
    thunderPct: read('thunderPct'),
    stormSign: mostOf(conditions, extras, 'stormSign'),
    rain72Mm: read('rain72Mm'),
    rainNext24Mm: read('rainNext24Mm'),
    nightLowC: night,
    clarityM: read('clarityM'),
    fetchM: fetchM === undefined ? undefined : exactly(fetchM),
    standingWater: exactly(RUNNING_WATER.includes(conditions.waterBody) ? 0 : 1),
    fogHours:
      extras.hours && extras.hours.length > 0 ? exactly(fogHours(extras.hours, water?.value)) : undefined,
    darkHours: extras.darkHours === undefined ? undefined : exactly(extras.darkHours),
  };
  return Object.fromEntries(Object.entries(all).filter(([, value]) => value !== undefined));
}

/** Where water of a dam upstream arrives: below one, and in the pools of a river that has them. */
const isBelowDam = ({ waterBody }: Conditions, { belowDam }: SafetyExtras): boolean =>
  belowDam || RUNNING_WATER.includes(waterBody);

/** Most of the numbers of the hours that are left; undefined where none has any. */
function mostOf(
  { asOfMs }: Conditions,
  { hours }: SafetyExtras,
  field: 'generationOn' | 'releaseStart' | 'stormSign',
): Judged | undefined {
  const known = (hours ?? []).flatMap((hour) => (hour.toMs > asOfMs ? (hour[field] ?? []) : []));
  return known.length === 0 ? undefined : exactly(Math.max(...known));
}

const opposite = ({ value, low, high }: Judged): Judged => ({ value: -value, low: -high, high: -low });

export const RUNNING_WATER: readonly WaterBody[] = ['tailwater', 'run-of-river'];

const scaled = ({ value, low, high }: Judged, by: number): Judged => ({
  value: value * by,
  low: low * by,
  high: high * by,
});
const opposed = (judged: Judged | undefined): Judged | undefined => judged && opposite(judged);

/**
 * The larger of two numbers, where either may be unknown. Its interval ends where the larger one's may: of two winds the
 * one that is told weaker may still be the one that hurts.
 */
function larger(one: Judged | undefined, other: Judged | undefined): Judged | undefined {
  if (one === undefined || other === undefined) return one ?? other;
  return {
    value: Math.max(one.value, other.value),
    low: Math.max(one.low, other.low),
    high: Math.max(one.high, other.high),
  };
}

function coldest(one: Judged | undefined, other: Judged | undefined): Judged | undefined {
  return opposed(larger(opposed(one), opposed(other)));
}

/** Air and wind of one and the same time. */
interface Moment {
  readonly airC: number;
  readonly windMs: number;
}

/**
 * The day's moments that cold is judged by: its hours where both numbers are known of some, else its coldest air with
 * its strongest wind, which may never come together.
 */
function momentsOf({ hours = [] }: SafetyExtras, coldestAir: Judged | undefined, wind: Judged): Moment[] {
  const known = hours.flatMap(({ airC, windMs }) =>
    airC === undefined || windMs === undefined ? [] : [{ airC, windMs: Math.max(0, windMs) }],
  );
  if (known.length > 0) return known;
  return coldestAir === undefined ? [] : [{ airC: coldestAir.value, windMs: Math.max(0, wind.value) }];
}

/** The moment that is coldest to the skin. */
function coldestFelt(
  moments: readonly Moment[],
): { readonly airC: number; readonly chillC: number } | undefined {
  return moments
    .map(({ airC, windMs }) => ({ airC, chillC: windChillC(airC, windMs) }))
    .sort((a, b) => a.chillC - b.chillC)[0];
}

function runningChill(moments: readonly Moment[], boatMs: number | undefined): Judged | undefined {
  if (boatMs === undefined) return undefined;
  const felt = coldestFelt(
    moments.map(({ airC, windMs }) => ({ airC, windMs: windMs + Math.max(0, boatMs) })),
  );
  return felt && exactly(felt.chillC);
}

function waves(wind: Judged | undefined, fetchM: number | undefined): Judged | undefined {
  if (wind === undefined || fetchM === undefined) return undefined;
  const heightAt = (windMs: number): number => fetchWaves(Math.max(0, windMs), Math.max(0, fetchM)).heightM;
  return { value: heightAt(wind.value), low: heightAt(wind.low), high: heightAt(wind.high) };
}
