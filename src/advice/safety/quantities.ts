import type { SafetyQuantity, SafetyTable } from '../../config/rulesSafety.ts';
import { heatIndexC } from '../../science/heatIndex.ts';
import { fetchWaves } from '../../science/waves.ts';
import { windChillC } from '../../science/windChill.ts';
import type { Conditions, SignalId } from '../../signals/types.ts';
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
  const wind = strongest(read('windMs'), read('windMaxMs'));
  const still = exactly(assumed.windMs);
  const level24h = read('level24hM');
  const rate = read('levelRateMPerH');
  const normal = read('levelVsNormalM');
  const all: Partial<Record<SafetyQuantity, Judged | undefined>> = {
    waterC: water,
    airMinusWaterC: water && airMax && exactly(airMax.value - water.value),
    airMaxC: airMax,
    windChillC: airMin && exactly(windChillC(airMin.value, Math.max(0, (wind ?? still).value))),
    runningWindChillC: runningChill(airMin, wind ?? still, extras.runningBoatMs),
    heatIndexC:
      airMax && extras.humidityPct !== undefined
        ? exactly(heatIndexC(airMax.value, Math.min(100, Math.max(0, extras.humidityPct))))
        : undefined,
    windMs: wind,
    gustMs: read('gustMs'),
    waveM: waves(wind, extras.fetchM ?? conditions.signals.fetchM?.value),
    rise24hM: level24h,
    fall24hM: level24h && opposite(level24h),
    riseRateMPerH: rate,
    fallRateMPerH: rate && opposite(rate),
    riseNext24hM: read('levelNext24hM'),
    belowNormalM: normal && opposite(normal),
    aboveNormalM: normal,
    dischargeRatio: read('dischargeRatio'),
    generationOn: read('generationOn'),
    belowDam: exactly(extras.belowDam ? 1 : 0),
    thunderPct: read('thunderPct'),
    rain72Mm: read('rain72Mm'),
    rainNext24Mm: read('rainNext24Mm'),
  };
  return Object.fromEntries(Object.entries(all).filter(([, value]) => value !== undefined));
}

const opposite = ({ value, low, high }: Judged): Judged => ({ value: -value, low: -high, high: -low });

function strongest(mean: Judged | undefined, most: Judged | undefined): Judged | undefined {
  if (mean === undefined || most === undefined) return mean ?? most;
  return most.value >= mean.value ? most : mean;
}

function runningChill(air: Judged | undefined, wind: Judged, boatMs: number | undefined): Judged | undefined {
  if (air === undefined || boatMs === undefined) return undefined;
  return exactly(windChillC(air.value, Math.max(0, boatMs) + Math.max(0, wind.value)));
}

function waves(wind: Judged | undefined, fetchM: number | undefined): Judged | undefined {
  if (wind === undefined || fetchM === undefined) return undefined;
  const heightAt = (windMs: number): number => fetchWaves(Math.max(0, windMs), Math.max(0, fetchM)).heightM;
  return { value: heightAt(wind.value), low: heightAt(wind.low), high: heightAt(wind.high) };
}
