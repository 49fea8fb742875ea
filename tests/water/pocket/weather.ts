import fc from 'fast-check';
import type { PocketHour, PocketShape } from '../../../src/water/pocket/index.ts';

export const HOUR = 3_600_000;
export const toF = (tempC: number): number => tempC * 1.8 + 32;
export const toC = (tempF: number): number => (tempF - 32) / 1.8;

/** Backs and pockets of the scenario: acres, feet and square miles turned to SI. */
export const OPEN: PocketShape = {
  areaM2: 40_470,
  meanDepthM: 1.52,
  watershedKm2: 4.05,
  curveNumber: 75,
  landCover: 'mixed',
  mouthWidthM: 60,
  channelLengthM: 3000,
  slope: 0.04,
  latDeg: 35.5,
};
export const BACK: PocketShape = {
  ...OPEN,
  areaM2: 6070,
  meanDepthM: 1,
  watershedKm2: 2.59,
  mouthWidthM: 30,
  channelLengthM: 2200,
};
export const DRAW: PocketShape = { ...BACK, watershedKm2: 0.259, channelLengthM: 700, slope: 0.06 };

export interface Spell {
  readonly days?: number;
  readonly startIso?: string;
  readonly lakeC?: number;
  readonly rainIn?: number;
  readonly rainAirC?: number;
  readonly beforeC?: number;
  readonly afterC?: number;
  readonly windAfterMs?: number;
  readonly cloudAfterPct?: number;
  readonly humidityAfterPct?: number;
  readonly sunPeakWm2?: number;
}

/** First hour of the rain, and the hour it ends: a day after the start, for twelve hours. */
export const RAIN_FROM = 24;
export const RAIN_TO = 36;

/** Hours from local midnight: a dull day, twelve hours of rain from the second midnight on, then what the spell says. */
export function spell(s: Spell = {}): PocketHour[] {
  const start = Date.parse(s.startIso ?? '2026-03-04T06:00Z');
  return Array.from({ length: 24 * (s.days ?? 5) }, (_, i) => {
    const raining = i >= RAIN_FROM && i < RAIN_TO;
    const before = i < RAIN_FROM;
    const light = Math.max(0, Math.sin((((i % 24) + 0.5 - 6.2) / 11.6) * Math.PI));
    const day = i % 24 >= 6 && i % 24 < 18;
    return {
      atMs: start + (i + 1) * HOUR,
      airC: raining ? (s.rainAirC ?? toC(58)) : before ? (s.beforeC ?? 10) : (s.afterC ?? 10),
      humidityPct: raining ? 95 : before ? 75 : (s.humidityAfterPct ?? 75),
      rainMm: raining ? ((s.rainIn ?? 0) * 25.4) / (RAIN_TO - RAIN_FROM) : 0,
      windMs: raining || before ? 3 : (s.windAfterMs ?? 3),
      shortwaveWm2: day ? light * (raining ? 80 : before ? 250 : (s.sunPeakWm2 ?? 450)) : 0,
      cloudPct: raining ? 100 : before ? 70 : (s.cloudAfterPct ?? 40),
      lakeC: s.lakeC ?? toC(47),
    };
  });
}

const real = (min: number, max: number): fc.Arbitrary<number> => fc.double({ min, max, noNaN: true });

export const anyShape: fc.Arbitrary<PocketShape> = fc.record({
  areaM2: real(500, 200_000),
  meanDepthM: real(0.3, 6),
  watershedKm2: real(0, 20),
  curveNumber: real(40, 95),
  landCover: fc.constantFrom('wooded' as const, 'mixed' as const, 'pasture' as const, 'urban' as const),
  mouthWidthM: real(0, 200),
  channelLengthM: real(200, 8000),
  slope: real(0.005, 0.3),
  latDeg: real(25, 50),
});

/** Three to five days of any weather a lake can meet between late winter and early summer, rain in any hour. */
export const anyWeather: fc.Arbitrary<PocketHour[]> = fc
  .array(
    fc.record({
      airC: real(-8, 22),
      humidityPct: real(20, 100),
      rainMm: fc.oneof({ weight: 3, arbitrary: fc.constant(0) }, { weight: 1, arbitrary: real(0, 15) }),
      windMs: real(0, 12),
      shortwaveWm2: fc.oneof(fc.constant(0), real(0, 900)),
      cloudPct: real(0, 100),
    }),
    { minLength: 30, maxLength: 72 },
  )
  .chain((hours) =>
    real(1, 20).map((lakeC) =>
      hours.map((hour, i) => ({ ...hour, lakeC, atMs: Date.UTC(2026, 2, 4) + i * HOUR })),
    ),
  );
