/** Hourly weather of an invented year at about 36 degrees north, with a morning's own days laid into it. */
import { DateTime } from 'luxon';
import { clearSkyWm2, saturationVapourHpa, sunPosition } from '../../../src/science/index.ts';
import type { LakeConfig } from '../../../src/config/types.ts';
import type { DayPlan, MorningPlan } from './plan.ts';

export const HOUR_MS = 3_600_000;
export const DAY_MS = 24 * HOUR_MS;

export interface Hour {
  readonly atMs: number;
  readonly airC: number;
  readonly humidityPct: number;
  readonly rainMm: number;
  readonly windMs: number;
  readonly gustMs: number;
  readonly windDirDeg: number;
  readonly cloudPct: number;
  readonly sunWm2: number;
  readonly thunderPct: number | null;
}

type Day = Required<Omit<DayPlan, 'dewC' | 'thunderPct' | 'rain'>> & DayPlan;

/** Whole days since 1970 of a local date: what the usual weather is a function of. */
const dayNumber = (local: DateTime): number => Date.UTC(local.year, local.month - 1, local.day) / DAY_MS;
const wave = (days: number, period: number, shift: number): number =>
  Math.sin((2 * Math.PI * days) / period + shift);
/** Even spread over -1 to 1 that looks like noise and is the same in every run. */
const jitter = (n: number): number => 2 * ((((Math.sin(n * 12.9898) * 43758.5453) % 1) + 1) % 1) - 1;

/** Seasonal mean with fronts every five to nine days and a rain a week. */
function usualDay(number: number): Day {
  const season = 13.5 - 12.5 * Math.cos((2 * Math.PI * ((number % 365.25) - 18)) / 365.25);
  return {
    mean: season + 2.6 * wave(number, 5.3, 0) + 1.6 * wave(number, 8.9, 1),
    half: 6,
    cloudPct: 45 + 35 * wave(number, 5.3, 2),
    windMs: 3.2 + 1.2 * wave(number, 4.1, 0.5),
    gustRatio: 1.6,
    ...(number % 7 === 3 ? { rain: [13, 3, 8] as const } : {}),
  };
}

/** What a day of the plan leaves out is usual, but the usual rain does not fall into it. */
function dayOf(plan: MorningPlan, number: number, offset: number): Day {
  const { rain, ...usual } = usualDay(number);
  const planned = plan.days?.[offset];
  if (planned !== undefined) return { ...usual, ...planned };
  return rain === undefined ? usual : { ...usual, rain };
}

function rainAt({ rain }: Day, hour: number): number {
  if (rain === undefined) return 0;
  const [mm, from, hours] = rain;
  const into = hour - from;
  // A half sine over the fall sums to 2/pi of its hours.
  return into < 0 || into >= hours
    ? 0
    : (mm / hours) * (Math.PI / 2) * Math.sin((Math.PI * (into + 0.5)) / hours);
}

const round = (value: number, decimals: number): number => Number(value.toFixed(decimals));

export function weatherHours(plan: MorningPlan, lake: LakeConfig, fromMs: number, toMs: number): Hour[] {
  const morning = dayNumber(DateTime.fromISO(plan.date));
  const days = new Map<number, Day>();
  const day = (number: number): Day => {
    const known = days.get(number) ?? dayOf(plan, number, number - morning);
    days.set(number, known);
    return known;
  };
  const hours: Hour[] = [];
  for (let atMs = fromMs; atMs <= toMs; atMs += HOUR_MS) {
    const local = DateTime.fromMillis(atMs, { zone: lake.zone });
    const number = dayNumber(local);
    const today = day(number);
    // Means belong to the middle of their day; between two middles the air goes over evenly.
    const past = local.hour / 24 - 0.5;
    const other = day(number + (past < 0 ? -1 : 1));
    const over = (pick: (one: Day) => number): number =>
      pick(today) + (pick(other) - pick(today)) * Math.abs(past);
    const rainMm = rainAt(today, local.hour);
    const cloudPct = Math.min(
      100,
      Math.max(
        0,
        over((one) => one.cloudPct),
      ),
    );
    const airC =
      over((one) => one.mean) +
      today.half * (1 - 0.6 * (cloudPct / 100)) * Math.sin((2 * Math.PI * (local.hour - 9.2)) / 24);
    const dewC =
      rainMm > 0 ? airC - 0.6 : over((one) => one.dewC ?? one.mean - 3.5 - 3 * (1 - one.cloudPct / 100));
    const windMs = Math.max(
      0.3,
      over((one) => one.windMs) * (0.8 + 0.35 * Math.sin((2 * Math.PI * (local.hour - 9)) / 24)) +
        0.25 * jitter(atMs / HOUR_MS),
    );
    hours.push({
      atMs,
      airC: round(airC + 0.2 * jitter(atMs / HOUR_MS + 0.5), 1),
      humidityPct: round(
        Math.min(
          100,
          Math.max(15, (100 * saturationVapourHpa(Math.min(dewC, airC))) / saturationVapourHpa(airC)),
        ),
        0,
      ),
      rainMm: round(rainMm, 2),
      windMs: round(windMs, 2),
      gustMs: round(windMs * over((one) => one.gustRatio), 2),
      windDirDeg: round(205 + 35 * wave(atMs / DAY_MS, 3.7, 0), 0),
      cloudPct: round(cloudPct, 0),
      sunWm2: round(
        clearSkyWm2(sunPosition(lake.latDeg, lake.lonDeg, atMs - HOUR_MS / 2).altitudeDeg) *
          (1 - 0.75 * (cloudPct / 100) ** 3.4),
        0,
      ),
      thunderPct: today.thunderPct ?? null,
    });
  }
  return hours;
}
