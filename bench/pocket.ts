/**
 * Microseconds per simulated hour of one pocket, with its interval (nine coarse runs) and the runs without storm and stream;
 * and what readings cost: the longer run that meets one of three weeks ago, and the correction itself.
 */
import { correctByReadings, simulatePocket, type PocketHour } from '../src/water/pocket/index.ts';

const HOURS = 24 * 15;
const HOUR_MS = 3_600_000;
/** Four days before a reading of three weeks ago, and seven ahead. */
const HOURS_WITH_READINGS = 24 * (4 + 21 + 7);
const weather: PocketHour[] = Array.from({ length: HOURS_WITH_READINGS }, (_, i) => ({
  atMs: Date.UTC(2026, 2, 1) + i * HOUR_MS,
  airC: 9 + 5 * Math.sin((i / 24) * 2 * Math.PI),
  humidityPct: 75,
  rainMm: i % 120 < 10 ? 3 : 0,
  windMs: 3,
  shortwaveWm2: Math.max(0, 450 * Math.sin((i / 24) * 2 * Math.PI)),
  cloudPct: 50,
  lakeC: 8.5,
}));
const shape = {
  areaM2: 6000,
  meanDepthM: 1,
  watershedKm2: 2.6,
  curveNumber: 75,
  landCover: 'mixed',
  mouthWidthM: 30,
  channelLengthM: 2200,
  slope: 0.04,
  latDeg: 35.5,
} as const;

const microseconds = (work: () => unknown): number => {
  const before = process.hrtime.bigint();
  work();
  return Number(process.hrtime.bigint() - before) / 1000;
};
const options = { basis: 'configured' } as const;
const usual = weather.slice(-HOURS);
const long = simulatePocket(shape, weather, options);
const readings = [1, 4, 8, 14, 21].map((daysAgo) => {
  const hour = long.hours[24 * (4 + 21 - daysAgo)];
  return { atMs: hour?.atMs ?? NaN, waterC: (hour?.surfaceC ?? NaN) + 1, depthM: 0.3, sdC: 0.5 };
});
const measured = (work: () => unknown): { median: number; best: number; runs: number } => {
  for (let i = 0; i < 5; i++) work();
  const times = Array.from({ length: 21 }, () => microseconds(work)).sort((a, b) => a - b);
  return { median: times[10] ?? NaN, best: times[0] ?? NaN, runs: times.length };
};

const run = measured(() => simulatePocket(shape, usual, options));
console.log(
  `${(run.median / HOURS).toFixed(1)} microseconds per pocket-hour (median of ${run.runs} runs of ${HOURS} hours; best ${(run.best / HOURS).toFixed(1)})`,
);
const ms = (us: number): string => (us / 1000).toFixed(1);
const longer = measured(() => simulatePocket(shape, weather, options));
const correction = measured(() => correctByReadings(long, readings));
console.log(
  `a pocket without readings ${ms(run.median)} ms, with one of three weeks ago ${ms(longer.median)} ms, correcting by ${readings.length} readings ${ms(correction.median)} ms`,
);
