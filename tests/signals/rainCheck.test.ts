import { describe, expect, it } from 'vitest';
import type { Observation } from '../../src/record/types.ts';
import { readSignals } from '../../src/signals/index.ts';
import { observation, recordView, testLake } from '../helpers/weatherRecord.ts';

const AS_OF = '2026-03-06T11:15:00Z';
const HOUR = 3_600_000;
const NOW_HOUR = Date.parse('2026-03-06T11:00:00Z');

const measured = (totalMm: number, hours = 80): Observation[] =>
  Array.from({ length: hours }, (_, back) =>
    observation('rain', NOW_HOUR - back * HOUR, totalMm / 72, { periodS: 3600 }),
  );
/** The model has so much rain in the last 72 h, and as much a day before that. */
const check = (modelMm: number, extra: readonly Observation[]) =>
  readSignals(
    recordView({ asOf: AS_OF, pastDays: 30, weather: () => ({ rain: modelMm / 72 }), extra }),
    testLake,
  );

describe('rain gauge against weather model', () => {
  it('is told with both sums when a gauge stays dry under a modelled flood, and the other way round', () => {
    const dry = check(36, measured(0));
    expect(dry.rainCheck?.measuredMm).toBe(0);
    expect(dry.rainCheck?.modelMm).toBeCloseTo(36, 6);
    expect(dry.conditions.signals.rain72Mm).toMatchObject({ value: 0, kind: 'observed' });
    const wet = check(4, measured(50));
    expect(wet.rainCheck?.measuredMm).toBeCloseTo(50, 6);
    expect(wet.rainCheck?.modelMm).toBeCloseTo(4, 6);
  });

  it('is not told of differences that showers make', () => {
    for (const [model, gauge] of [
      [36, 36],
      [36, 20],
      [9, 0],
      [24, 12],
    ] as const)
      expect(check(model, measured(gauge)).rainCheck, `${model} and ${gauge} mm`).toBeUndefined();
  });

  it('is not told without a gauge, or with half of its hours', () => {
    expect(check(36, []).rainCheck).toBeUndefined();
    expect(check(36, measured(0, 40)).rainCheck).toBeUndefined();
  });

  it('does not count values that are doubted', () => {
    const doubted = measured(0).map((row) => ({
      ...row,
      doubt: { code: 'doubt.stuck' as const, hours: 24 },
    }));
    expect(check(36, doubted).rainCheck).toBeUndefined();
  });
});
