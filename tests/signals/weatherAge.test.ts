/** Weather that gets old. */
import { describe, expect, it } from 'vitest';
import type { LakeConfig } from '../../src/config/types.ts';
import type { Observation } from '../../src/record/types.ts';
import { readSignals } from '../../src/signals/index.ts';
import { recordView, testLake } from '../helpers/weatherRecord.ts';

const AS_OF = '2026-03-06T11:15:00Z'; // 05:15 at the lake
const HOUR = 3_600_000;
type View = ReturnType<typeof recordView>;
/** A view with nothing but what is given. */
const only = (...observations: Observation[]): View => ({ ...recordView({ asOf: AS_OF }), observations });
const gapsOf = (view: View, lake: LakeConfig = testLake) =>
  readSignals(view, lake).conditions.gaps.map(({ id, fact }) => ({ id, ...fact }));

describe('weather that gets old', () => {
  it('is fresh, then named with its age, then not counted on', () => {
    const named = (ageH: number) =>
      gapsOf(recordView({ asOf: AS_OF, weatherAgeH: ageH })).find(({ id }) => id === 'weather');
    expect(named(1)).toBeUndefined();
    const [ageing, old] = [named(14), named(60)];
    for (const [gap, ageH] of [
      [ageing, 14],
      [old, 60],
    ] as const) {
      expect(gap).toBeDefined();
      // The issue is of the whole hour before.
      expect('ageMs' in gap! ? gap.ageMs / HOUR : NaN).toBeCloseTo(ageH + 0.25, 9);
    }
    expect([ageing?.code, old?.code]).toEqual(['weatherAgeing', 'weatherTooOld']);
    expect(gapsOf(only()).find(({ id }) => id === 'weather')?.code).toBe('noWeather');
  });
});
