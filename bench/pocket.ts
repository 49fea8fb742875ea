/** Microseconds per simulated hour of one pocket, with its interval (nine coarse runs) and the run without the storm. */
import { simulatePocket, type PocketHour } from '../src/water/pocket/index.ts';

const HOURS = 24 * 15;
const HOUR_MS = 3_600_000;
const hours: PocketHour[] = Array.from({ length: HOURS }, (_, i) => ({
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

const once = (): number => {
  const before = process.hrtime.bigint();
  simulatePocket(shape, hours, { basis: 'configured' });
  return Number(process.hrtime.bigint() - before) / 1000 / HOURS;
};
for (let i = 0; i < 5; i++) once();
const times = Array.from({ length: 21 }, once).sort((a, b) => a - b);
const at = (share: number): string => (times[Math.round(share * (times.length - 1))] ?? NaN).toFixed(1);
console.log(
  `${at(0.5)} microseconds per pocket-hour (median of ${times.length} runs of ${HOURS} hours; best ${at(0)})`,
);
