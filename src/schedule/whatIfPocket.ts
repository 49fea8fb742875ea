/** The sun on a what-if's pocket that faces a side: the same model as in the mornings, on the day as it is written. */
import type { Assumption, Understood } from '../advice/whatIf/index.ts';
import type { PlanHour } from '../advice/plan/index.ts';
import { clearSkyWm2, cloudTransmission, directSun } from '../science/index.ts';
import { type Figure, guessedHorizon } from '../signals/index.ts';
import { DAY_MS, HOUR_MS } from '../units/time/index.ts';
import {
  classPocket,
  shadedHours,
  simulatePocket,
  type PocketHour,
  type PocketRun,
} from '../water/pocket/index.ts';

/** Days like the written one that the pocket has behind it, so that it does not start as the lake. */
const DAYS_BEFORE = 3;
const HOURS = 24;
/** Taken where the form does not say it: middling air, and the wind that the safety table takes (common practice, no source). */
const USUAL_HUMIDITY_PCT = 65;
const USUAL_WIND_MS = 3;
/** The middle of the reservoir country that the rules were written for. */
const USUAL_LATITUDE = 35;
/** The air is warmest about then, h (common practice, no source). */
const WARMEST_H = 15;
/** What stands around a pocket of which nothing but the side it faces is known. */
const LAND = 'mixed';

type Sunny = Extract<Assumption, { code: 'pocketSun' }>;

interface Run {
  readonly facesDeg: number;
  readonly run: PocketRun;
  readonly sunH: number;
}

/**
 * The day with the temperature of a pocket that faces a side, where nobody has measured it: air, sky, wind and sun by
 * the hour through the pocket model, beside what rain has done to it.
 *
 * @param facesDeg side to which it is open, degrees
 * @returns the day as it was where air, sky, main lake or date are not known, or the pocket is
 */
export function withPocketSun(understood: Understood, facesDeg: number | undefined): Understood {
  const { signals } = understood.conditions;
  const main = signals.waterC?.value;
  const before = signals.pocketMinusMainC;
  // Where the sun stands takes a date; without one there is no length of the day.
  const isDated = signals.dayLengthH !== undefined;
  if (facesDeg === undefined || main === undefined || !isDated || before?.source.code === 'given')
    return understood;
  const weather = writtenWeather(understood);
  if (weather === null) return understood;
  const runs = [facesDeg, facesDeg + 180].map((deg) => runOf(understood, weather, main, deg % 360));
  const [faced, opposite] = runs;
  if (faced === undefined || opposite === undefined) return understood;
  const rainK = before?.value ?? 0;
  const dayMs = midnight(understood);
  const hourly = lastDay(faced.run).map((state) => ({
    fromMs: state.atMs - HOUR_MS,
    toMs: state.atMs,
    differenceK: state.minusMainC + rainK,
    lowK: state.lowC - main + (before?.low ?? rainK),
    highK: state.highC - main + (before?.high ?? rainK),
  }));
  const { fishing } = understood.day;
  const fished = hourly.filter(
    ({ fromMs, toMs }) => fishing === null || (toMs > fishing.fromMs && fromMs < fishing.toMs),
  );
  const [warmest] = [...(fished.length === 0 ? hourly : fished)].sort(
    (a, b) => b.differenceK - a.differenceK,
  );
  if (warmest === undefined) return understood;
  const other = lastDay(opposite.run).find(({ atMs }) => atMs === warmest.toMs);
  const told: Sunny = {
    code: 'pocketSun',
    facesDeg,
    sunH: faced.sunH,
    hour: (warmest.toMs - dayMs) / HOUR_MS,
    differenceC: warmest.differenceK,
    oppositeC: (other?.minusMainC ?? warmest.differenceK - rainK) + rainK,
  };
  return applied(understood, main, hourly, warmest, told);
}

function applied(
  understood: Understood,
  main: number,
  hourly: readonly { readonly fromMs: number; readonly toMs: number; readonly differenceK: number }[],
  warmest: { readonly differenceK: number; readonly lowK: number; readonly highK: number },
  told: Sunny,
): Understood {
  const { conditions, day } = understood;
  const figure = (base: number): Figure => ({
    value: base + warmest.differenceK,
    low: base + Math.min(warmest.lowK, warmest.differenceK),
    high: base + Math.max(warmest.highK, warmest.differenceK),
    kind: 'estimated',
    asOfMs: conditions.asOfMs,
    freshness: 'fresh',
    source: { code: 'workedOut' },
  });
  const differenceAt = (hour: PlanHour): number | undefined => {
    const middle = (hour.fromMs + hour.toMs) / 2;
    return hourly.find(({ fromMs, toMs }) => fromMs <= middle && toMs > middle)?.differenceK;
  };
  return {
    ...understood,
    conditions: {
      ...conditions,
      signals: { ...conditions.signals, pocketMinusMainC: figure(0), pocketC: figure(main) },
      gaps: conditions.gaps.filter(({ id }) => id !== 'pocketMinusMainC'),
    },
    day: {
      ...day,
      hours: day.hours.map((hour) => {
        const pocketMinusMainC = differenceAt(hour);
        return pocketMinusMainC === undefined ? hour : { ...hour, pocketMinusMainC };
      }),
    },
    assumptions: [...understood.assumptions.filter(({ code }) => code !== 'pocketCoarse'), told],
    understood: [
      ...understood.understood.filter(({ signal }) => signal !== 'pocketMinusMainC'),
      { field: null, signal: 'pocketMinusMainC', workedOut: true, value: warmest.differenceK },
    ],
  };
}

const lastDay = ({ hours }: PocketRun): PocketRun['hours'] => hours.slice(-HOURS);

/** A written day has no zone: its local time is taken as UTC. */
const midnight = ({ conditions }: Understood): number => Date.parse(`${conditions.date}T00:00:00Z`);

interface Weather {
  readonly airC: number;
  readonly windMs: number;
  readonly cloudPct: number;
  readonly altitudeDeg: number;
}

/** The day's weather, by the hour from midnight; null where air, sky or the sun's course are not known. */
function writtenWeather({ conditions, day }: Understood): Weather[] | null {
  const { signals } = conditions;
  const airOf = courseOfAir(signals);
  const dayMs = Date.parse(`${conditions.date}T00:00:00Z`);
  const found: Weather[] = [];
  for (let n = 0; n < HOURS; n += 1) {
    const middle = dayMs + (n + 0.5) * HOUR_MS;
    const hour = day.hours.find(({ fromMs, toMs }) => fromMs <= middle && toMs > middle);
    const airC = hour?.airC ?? airOf(n + 0.5);
    const cloudPct = hour?.cloudPct ?? signals.cloudPct?.value;
    const altitudeDeg = hour?.sunAltitudeDeg;
    if (airC === undefined || cloudPct === undefined || altitudeDeg === undefined) return null;
    const windMs = hour?.windMs ?? signals.windMs?.value ?? USUAL_WIND_MS;
    found.push({ airC, windMs, cloudPct: Math.min(100, Math.max(0, cloudPct)), altitudeDeg });
  }
  return found;
}

/** Air by the clock from the day's ends, else its mean all day; undefined where neither is known. */
function courseOfAir({
  airMinTodayC,
  airMinLastNightC,
  airMaxTodayC,
  airMean24hC,
  airMean3dC,
}: Understood['conditions']['signals']): (hour: number) => number | undefined {
  const low = (airMinTodayC ?? airMinLastNightC)?.value;
  const high = airMaxTodayC?.value;
  if (low === undefined || high === undefined || high < low) {
    const mean = (airMean24hC ?? airMean3dC)?.value;
    return () => mean;
  }
  return (hour) =>
    (low + high) / 2 + ((high - low) / 2) * Math.cos(((hour - WARMEST_H) / HOURS) * 2 * Math.PI);
}

function runOf(understood: Understood, weather: readonly Weather[], lakeC: number, facesDeg: number): Run {
  const { signals } = understood.conditions;
  const latDeg = signals.latitudeDeg?.value ?? USUAL_LATITUDE;
  const shape = {
    ...classPocket('small', undefined, signals.bankDeg?.value),
    latDeg,
    landCover: LAND,
  } as const;
  const lonDeg = meridianOf(weather);
  const site = { latDeg, lonDeg, horizonDeg: guessedHorizon(facesDeg, LAND, shape.areaM2) };
  const dayMs = midnight(understood);
  const open: PocketHour[] = [];
  for (let back = DAYS_BEFORE; back >= 0; back -= 1)
    weather.forEach(({ airC, windMs, cloudPct, altitudeDeg }, n) => {
      open.push({
        atMs: dayMs - back * DAY_MS + (n + 1) * HOUR_MS,
        airC,
        humidityPct: USUAL_HUMIDITY_PCT,
        rainMm: 0,
        windMs: Math.max(0, windMs),
        shortwaveWm2: clearSkyWm2(altitudeDeg) * cloudTransmission(cloudPct),
        cloudPct,
        lakeC,
      });
    });
  return {
    facesDeg,
    run: simulatePocket(shape, shadedHours(open, site), { basis: 'class' }),
    sunH: directSun(site, dayMs, dayMs + DAY_MS)?.sunH ?? 0,
  };
}

/** The meridian on which the sun stands highest at the hour that the written day has it, degrees east. */
function meridianOf(weather: readonly Weather[]): number {
  let [sum, weight] = [0, 0];
  weather.forEach(({ altitudeDeg }, n) => {
    const up = Math.max(0, altitudeDeg);
    sum += up * (n + 0.5);
    weight += up;
  });
  return weight === 0 ? 0 : (12 - sum / weight) * 15;
}
