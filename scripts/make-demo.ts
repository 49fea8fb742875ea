/**
 * Writes fixtures/demo/ossarly.json: 76 days of invented hourly weather and gauges for an invented lake, early March,
 * with a warm rain on a cold lake, and its daily levels of a year. Physically consistent, not real, and the same bytes at every run.
 * Run: npx tsx scripts/make-demo.ts
 */
import { mkdirSync, writeFileSync } from 'node:fs';
import { clearSkyWm2, saturationVapourHpa, sunPosition } from '../src/science/index.ts';

const HOUR_MS = 3_600_000;
const LAT = 35.9;
const LON = -86.4;
const FIRST = Date.parse('2025-12-20T06:00:00Z');
const LAST = Date.parse('2026-03-14T06:00:00Z');
/** 05:15 in the lake's zone (UTC-6). */
const AS_OF = Date.parse('2026-03-06T11:15:00Z');

function seeded(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}
const random = seeded(20260306);
const between = (low: number, high: number): number => low + (high - low) * random();

/** Daily plan of the last days, in local dates: mean air, half range, cloud, wind; before that a winter of fronts. */
const PLAN: Record<string, { mean: number; half: number; cloud: number; wind: number }> = {
  '2026-02-25': { mean: 3.2, half: 5.5, cloud: 35, wind: 4.2 },
  '2026-02-26': { mean: 4.1, half: 6, cloud: 20, wind: 3 },
  '2026-02-27': { mean: 6.4, half: 6.5, cloud: 15, wind: 2.8 },
  '2026-02-28': { mean: 8.2, half: 6.5, cloud: 25, wind: 3.1 },
  '2026-03-01': { mean: 9.8, half: 6, cloud: 30, wind: 3.5 },
  '2026-03-02': { mean: 11.2, half: 6, cloud: 40, wind: 4 },
  '2026-03-03': { mean: 12.4, half: 5, cloud: 65, wind: 4.8 },
  '2026-03-04': { mean: 13.8, half: 3, cloud: 92, wind: 5.5 },
  '2026-03-05': { mean: 14.2, half: 2, cloud: 96, wind: 4.5 },
  '2026-03-06': { mean: 13.2, half: 4.5, cloud: 55, wind: 3.2 },
  '2026-03-07': { mean: 13.6, half: 5.5, cloud: 30, wind: 3.4 },
  '2026-03-08': { mean: 14.4, half: 5, cloud: 45, wind: 5 },
  '2026-03-09': { mean: 9, half: 5, cloud: 70, wind: 8 },
  '2026-03-10': { mean: 3.6, half: 5.5, cloud: 15, wind: 5.5 },
  '2026-03-11': { mean: 4.2, half: 6.5, cloud: 10, wind: 2.8 },
  '2026-03-12': { mean: 6.5, half: 6.5, cloud: 20, wind: 2.6 },
  '2026-03-13': { mean: 8.5, half: 6.5, cloud: 25, wind: 3 },
  '2026-03-14': { mean: 9.5, half: 6.5, cloud: 30, wind: 3 },
};
/** Falls of rain: first hour (UTC end), hours, millimetres in all. */
const FALLS: readonly [string, number, number][] = [
  ['2025-12-28T04:00Z', 14, 22],
  ['2026-01-05T10:00Z', 9, 11],
  ['2026-01-14T01:00Z', 16, 27],
  ['2026-01-24T15:00Z', 8, 9],
  ['2026-02-02T06:00Z', 12, 18],
  ['2026-02-10T20:00Z', 10, 14],
  ['2026-02-18T09:00Z', 15, 24],
  ['2026-02-23T03:00Z', 7, 6],
  ['2026-03-02T10:00Z', 10, 17],
  ['2026-03-05T09:00Z', 15, 39],
  ['2026-03-09T08:00Z', 9, 8],
];

function localDate(atMs: number): string {
  return new Date(atMs - 6 * HOUR_MS).toISOString().slice(0, 10);
}

const rain = new Map<number, number>();
for (const [start, hours, total] of FALLS) {
  const weights = Array.from(
    { length: hours },
    (_, hour) => Math.sin((Math.PI * (hour + 0.5)) / hours) * between(0.6, 1.4),
  );
  const sum = weights.reduce((a, b) => a + b, 0);
  for (const [hour, weight] of weights.entries())
    rain.set(Date.parse(start) + hour * HOUR_MS, (total * weight) / sum);
}

let front = 0;
const plans = new Map<string, { mean: number; half: number; cloud: number; wind: number }>();
for (let day = FIRST; day <= LAST + 24 * HOUR_MS; day += 24 * HOUR_MS) {
  const date = localDate(day);
  front = 0.72 * front + between(-2.6, 2.6);
  const season =
    4.2 +
    1.6 * Math.cos((2 * Math.PI * (day - Date.parse('2025-12-05T00:00Z'))) / (365.25 * 24 * HOUR_MS)) ** 2 -
    1.2;
  plans.set(
    date,
    PLAN[date] ?? {
      mean: season + front,
      half: between(3.5, 6.5),
      cloud: between(10, 90),
      wind: between(2.2, 5.5),
    },
  );
}

const rows: {
  t: number;
  air: number;
  humidity: number;
  rain: number;
  wind: number;
  gust: number;
  dir: number;
  cloud: number;
  pressure: number;
  sun: number;
}[] = [];
for (let t = FIRST; t <= LAST; t += HOUR_MS) {
  const today = plans.get(localDate(t));
  const tomorrow = plans.get(localDate(t + 24 * HOUR_MS)) ?? today;
  if (!today || !tomorrow) throw new Error('plan misses a day');
  const localHour = ((((t - 6 * HOUR_MS) / HOUR_MS) % 24) + 24) % 24;
  const share = localHour / 24;
  const mix = (a: number, b: number): number => a + (b - a) * Math.max(0, share - 0.5);
  const mm = rain.get(t) ?? 0;
  const cloud = Math.min(
    100,
    Math.max(0, mix(today.cloud, tomorrow.cloud) + between(-12, 12) + (mm > 0 ? 40 : 0)),
  );
  const damp = 1 - 0.6 * (cloud / 100);
  const air =
    mix(today.mean, tomorrow.mean) +
    today.half * damp * Math.sin((2 * Math.PI * (localHour - 9.2)) / 24) +
    between(-0.25, 0.25);
  const dew =
    mm > 0
      ? air - between(0.3, 0.9)
      : mix(today.mean, tomorrow.mean) - 3.2 - 2.6 * (1 - cloud / 100) + between(-0.4, 0.4);
  const humidity = Math.min(
    100,
    Math.max(25, (100 * saturationVapourHpa(Math.min(dew, air))) / saturationVapourHpa(air)),
  );
  const wind = Math.max(
    0.4,
    mix(today.wind, tomorrow.wind) * (0.75 + 0.4 * Math.sin((2 * Math.PI * (localHour - 9)) / 24)) +
      between(-0.5, 0.5),
  );
  const clear = clearSkyWm2(sunPosition(LAT, LON, t - HOUR_MS / 2).altitudeDeg);
  rows.push({
    t: t / 1000,
    air,
    humidity,
    rain: mm,
    wind,
    gust: wind * 1.6 + between(0, 1),
    dir: (205 + 40 * Math.sin(t / HOUR_MS / 30) + between(-15, 15)) % 360,
    cloud,
    pressure: 1016 - 6 * Math.sin(t / HOUR_MS / 40) - (mm > 0 ? 3 : 0),
    sun: clear * (1 - 0.75 * (cloud / 100) ** 3.4),
  });
}

// The lake: a surface layer that relaxes to an equilibrium of air and sun; a different, simpler model than the program's.
let layer = 5.2;
let level = 188.05;
let store = 0;
const gauges: { t: number; level: number; discharge: number; water: number }[] = [];
const dayLevels = new Map<string, number[]>();
for (const row of rows) {
  const equilibrium = row.air - 2.6 + row.sun / 32;
  layer += (equilibrium - layer) / (24 * 24);
  store = store * Math.exp(-1 / 11) + row.rain * (store > 2 ? 0.34 : 0.22);
  const discharge = 2.1 + 3.4 * store;
  level += ((discharge - 4.6) * 2.6 * 3600) / 25.1e6 - (level - 188.05) * 0.0012;
  if (row.t * 1000 > AS_OF) break;
  const date = localDate(row.t * 1000);
  dayLevels.set(date, [...(dayLevels.get(date) ?? []), level]);
  if (row.t * 1000 < AS_OF - 45 * 24 * HOUR_MS) continue;
  gauges.push({
    t: row.t,
    level: level + between(-0.006, 0.006),
    discharge: discharge * between(0.985, 1.015),
    water: layer + between(-0.12, 0.12),
  });
}

// Daily means of the year behind: the lake as simulated, and before that a summer pool with two floods.
const DAY_MS = 24 * HOUR_MS;
const daily: { date: string; level: number }[] = [];
for (let day = AS_OF - 366 * DAY_MS; day < AS_OF - DAY_MS / 2; day += DAY_MS) {
  const date = localDate(day);
  const simulated = dayLevels.get(date);
  const before = (FIRST - day) / DAY_MS;
  const flood = (onset: string, size: number): number => {
    const days = (day - Date.parse(onset)) / DAY_MS;
    return days < 0 ? 0 : size * Math.min(1, days / 3) * Math.exp(-days / 12);
  };
  const summer = 188.05 + 0.9 * Math.sin((Math.PI * before) / 365) ** 2;
  const mean = simulated
    ? simulated.reduce((total, value) => total + value, 0) / simulated.length
    : summer + flood('2025-04-12T00:00Z', 0.8) + flood('2025-06-03T00:00Z', 0.5);
  daily.push({ date, level: mean });
}

const round = (value: number, decimals: number): number => Number(value.toFixed(decimals));
const column = <T>(list: readonly T[], pick: (item: T) => number, decimals: number): number[] =>
  list.map((item) => round(pick(item), decimals));
mkdirSync('fixtures/demo', { recursive: true });
writeFileSync(
  'fixtures/demo/ossarly.json',
  JSON.stringify({
    note: 'Invented weather and gauges of an invented lake. Not observations of any real place. Written by scripts/make-demo.ts.',
    latitude: LAT,
    longitude: LON,
    asOf: new Date(AS_OF).toISOString(),
    hourly: {
      time: rows.map((row) => row.t),
      temperature_2m: column(rows, (row) => row.air, 1),
      relative_humidity_2m: column(rows, (row) => row.humidity, 0),
      precipitation: column(rows, (row) => row.rain, 1),
      wind_speed_10m: column(rows, (row) => row.wind * 3.6, 1),
      wind_gusts_10m: column(rows, (row) => row.gust * 3.6, 1),
      wind_direction_10m: column(rows, (row) => row.dir, 0),
      cloud_cover: column(rows, (row) => row.cloud, 0),
      surface_pressure: column(rows, (row) => row.pressure, 1),
      shortwave_radiation: column(rows, (row) => row.sun, 0),
    },
    gauges: {
      time: gauges.map((row) => row.t),
      levelFt: column(gauges, (row) => row.level / 0.3048, 2),
      dischargeFt3s: column(gauges, (row) => row.discharge / 0.3048 ** 3, 1),
      waterC: column(gauges, (row) => row.water, 1),
    },
    dailyLevels: {
      date: daily.map((row) => row.date),
      levelFt: column(daily, (row) => row.level / 0.3048, 2),
    },
  }) + '\n',
);
