import { HOUR_MS } from '../../units/time/index.ts';
import type { HourSignal } from '../../config/index.ts';
import { deriveInflow } from '../whatIf/derive.ts';
import { SLACK_MS, stands, type Known } from '../rules/known.ts';
import type { PlanHour } from './hours.ts';

/** What the rules see of one hour. */
export interface HourKnown {
  readonly known: Known;
  /** The same numbers with those that only an hour has. */
  readonly signals: Readonly<Partial<Record<HourSignal, number>>>;
}

const LOW_SUN_DEG = 6;
const HIGH_SUN_DEG = 16;
const DULL_PCT = 85;

/** 0..1: how low the light is, from the sun and the cloud. */
function lowLight(altitudeDeg: number, cloudPct: number | undefined): number {
  const bySun = Math.min(1, Math.max(0, (HIGH_SUN_DEG - altitudeDeg) / (HIGH_SUN_DEG - LOW_SUN_DEG)));
  const byCloud = cloudPct !== undefined && cloudPct >= DULL_PCT ? 0.6 : 0;
  return Math.max(bySun, byCloud);
}

/** The day in the light of hours that somebody chose, where its own light is not told: who fishes by night has no high sun. */
export function inLightOf(
  known: Known,
  hours: readonly PlanHour[],
  { fromMs, toMs }: { readonly fromMs: number; readonly toMs: number },
): Known {
  const { lowLightShare, cloudPct } = known.signals;
  if (lowLightShare !== undefined) return known;
  let [sum, weight] = [0, 0];
  for (const hour of hours) {
    const time = Math.min(hour.toMs, toMs) - Math.max(hour.fromMs, fromMs);
    if (time <= 0) continue;
    if (hour.sunAltitudeDeg === undefined) return known;
    sum += time * lowLight(hour.sunAltitudeDeg, hour.cloudPct ?? cloudPct);
    weight += time;
  }
  return weight === 0 ? known : { ...known, signals: { ...known.signals, lowLightShare: sum / weight } };
}

/** In the evening the air falls without a front, K an hour. */
const EVENING_FALL = 1;
const EVENING_FROM_H = 15;
/** Rain that makes runoff, mm. */
const RUNOFF_MM = 9;

/** What earlier hours of the day have left behind. */
export interface Earlier {
  readonly warmestC: number | null;
  readonly warmestHour: number;
  readonly rainMm: number;
  readonly rainAirC: number | null;
  readonly hoursSinceRain: number;
}

export const NOTHING_EARLIER: Earlier = {
  warmestC: null,
  warmestHour: 0,
  rainMm: 0,
  rainAirC: null,
  hoursSinceRain: Infinity,
};

/** Adds an hour to what came before it. */
export function after(earlier: Earlier, hour: PlanHour, localHour: number): Earlier {
  const spanH = (hour.toMs - hour.fromMs) / HOUR_MS;
  const rainMm = hour.rainMm ?? 0;
  const raining = rainMm >= 0.5 * spanH;
  const warmer = hour.airC !== undefined && (earlier.warmestC === null || hour.airC > earlier.warmestC);
  const total = earlier.rainMm + rainMm;
  return {
    warmestC: warmer ? (hour.airC ?? null) : earlier.warmestC,
    warmestHour: warmer ? localHour : earlier.warmestHour,
    rainMm: total,
    rainAirC:
      rainMm > 0 && hour.airC !== undefined
        ? ((earlier.rainAirC ?? hour.airC) * earlier.rainMm + hour.airC * rainMm) / total
        : earlier.rainAirC,
    hoursSinceRain: raining ? 0 : earlier.hoursSinceRain + spanH,
  };
}

/** The day's numbers with those of one hour in their place; what the hour does not say stands as the day has it. */
export function hourKnown(day: Known, hour: PlanHour, localHour: number, earlier: Earlier): HourKnown {
  const signals: Partial<Record<HourSignal, number>> = { ...day.signals };
  const put = (id: HourSignal, value: number | undefined): void => {
    if (value !== undefined) signals[id] = value;
  };
  put('windMs', hour.windMs);
  put('windMaxMs', hour.windMs);
  put('gustMs', hour.gustMs);
  put('cloudPct', hour.cloudPct);
  put('airNowC', hour.airC);
  put('thunderPct', hour.thunderPct);
  put('currentMs', hour.currentMs);
  if (hour.cloudPct !== undefined) delete signals.clearSkyShare;
  if (hour.pocketMinusMainC !== undefined) {
    put('pocketMinusMainC', hour.pocketMinusMainC);
    const { waterC } = day.signals;
    put('pocketC', waterC === undefined ? undefined : waterC + hour.pocketMinusMainC);
  }
  if (hour.generationOn !== undefined) {
    put('generationOn', hour.generationOn);
    // A current that was given for the running water has gone when the turbines stand.
    const still = stands(hour.generationOn) && hour.currentMs === undefined;
    if (still && (signals.currentMs !== undefined || day.waterBody === 'tailwater'))
      put('currentMs', Math.min(signals.currentMs ?? SLACK_MS, SLACK_MS));
    // The slack of a day whose turbines stand says nothing of an hour in which they run.
    if (!stands(hour.generationOn) && stands(day.signals.generationOn)) delete signals.currentMs;
  }
  if (hour.sunAltitudeDeg !== undefined) {
    put('sunAltitudeDeg', hour.sunAltitudeDeg);
    put('lowLightShare', lowLight(hour.sunAltitudeDeg, signals.cloudPct));
  }
  put('localHour', localHour);
  put(
    'hourRainMm',
    hour.rainMm === undefined ? undefined : (hour.rainMm * HOUR_MS) / (hour.toMs - hour.fromMs),
  );
  passingFront(signals, hour, localHour, earlier);
  rainOfToday(signals, day, earlier, hour.pocketMinusMainC !== undefined);
  return { known: { ...day, signals }, signals };
}

type Signals = Partial<Record<HourSignal, number>>;

/** The air has fallen since its warmest hour by more than an evening explains: a front passes. */
function passingFront(
  signals: Signals,
  hour: PlanHour,
  localHour: number,
  { warmestC, warmestHour }: Earlier,
): void {
  if (hour.airC === undefined || warmestC === null) return;
  const evening = Math.max(0, localHour - Math.max(warmestHour, EVENING_FROM_H)) * EVENING_FALL;
  const fall = warmestC - hour.airC - evening;
  if (fall > (signals.airDrop24hC ?? 0)) signals.airDrop24hC = fall;
}

/** Rain that has fallen today feeds the inflows as rain of the days before does. */
function rainOfToday(signals: Signals, day: Known, earlier: Earlier, pocketKnown: boolean): void {
  if (earlier.rainMm < RUNOFF_MM) return;
  const before = day.signals;
  signals.rain24Mm = (before.rain24Mm ?? 0) + earlier.rainMm;
  signals.rain72Mm = (before.rain72Mm ?? 0) + earlier.rainMm;
  signals.hoursSinceRain = earlier.hoursSinceRain;
  if (earlier.rainAirC === null) return;
  const { pocketRenewedShare: was = 0 } = before;
  const derived = deriveInflow({
    rain72Mm: earlier.rainMm,
    rainAirC: earlier.rainAirC,
    hoursSinceRain: earlier.hoursSinceRain,
    clearColdNightSinceRain: 0,
    ...(before.waterC === undefined ? {} : { waterC: before.waterC }),
  });
  for (const { id, value } of derived) {
    if (id === 'pocketMinusMainC' && pocketKnown) continue;
    signals[id] = id === 'pocketRenewedShare' ? Math.max(was, value) : value;
  }
}
