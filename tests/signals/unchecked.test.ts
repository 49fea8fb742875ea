/** What was not checked, and what was not believed. */
import { describe, expect, it } from 'vitest';
import type { LakeConfig } from '../../src/config/types.ts';
import type { Observation } from '../../src/record/types.ts';
import { uncheckedGaps } from '../../src/signals/unchecked.ts';
import { observation, recordView, testLake } from '../helpers/weatherRecord.ts';

const AS_OF = '2026-03-06T11:15:00Z'; // 05:15 at the lake
const HOUR = 3_600_000;
const LAST = Date.parse('2026-03-06T11:00:00Z');
type View = ReturnType<typeof recordView>;
/** A view with nothing but what is given. */
const only = (...observations: Observation[]): View => ({ ...recordView({ asOf: AS_OF }), observations });

describe('what was not checked', () => {
  const checked = { ...recordView({ asOf: AS_OF }), alertsCheckedMs: LAST };
  const codes = (view: View, lake: LakeConfig, flow: number | null = 5) =>
    uncheckedGaps(view, lake, flow, []).map(({ id, fact }) => [id, fact.code]);
  const full: LakeConfig = { ...testLake, alerts: 'nws', floodGauge: 'X' };
  it('is named by what it would have told', () => {
    expect(codes(checked, full)).toEqual([]);
    expect(codes({ ...checked, alertsCheckedMs: null }, full)).toEqual([['alerts', 'alertsNotChecked']]);
    expect(codes(checked, { ...full, alerts: 'none' })).toEqual([['alerts', 'alertsNotChecked']]);
    const { floodGauge: _, ...noFlood } = full;
    expect(codes(checked, noFlood)).toEqual([['flood', 'floodNotChecked']]);
    expect(codes(checked, { ...full, waterBody: 'run-of-river' }, null)).toEqual([
      ['dischargeM3s', 'noFlowThroughPool'],
    ]);
    expect(codes(checked, { ...full, waterBody: 'run-of-river' })).toEqual([]);
    expect(codes(checked, full, null)).toEqual([]);
  });
  it('are values of the last three days that were not believed, counted, but for a level that waits for its next', () => {
    const doubt = (
      backH: number,
      variable: Observation['variable'],
      code: 'doubt.spike' | 'doubt.unconfirmed',
    ) => observation(variable, LAST - backH * HOUR, 9, { doubt: { code } });
    const gap = (...rows: Observation[]) =>
      uncheckedGaps({ ...only(...rows), alertsCheckedMs: LAST }, full, 5, []).map(({ id, fact }) => ({
        id,
        ...fact,
      }));
    expect(gap(doubt(71, 'water_temp', 'doubt.spike'), doubt(2, 'water_temp', 'doubt.spike'))).toEqual([
      {
        id: 'gauge',
        code: 'valuesDoubted',
        count: 2,
        variable: 'water_temp',
        doubt: { code: 'doubt.spike' },
      },
    ]);
    expect(gap(doubt(72, 'water_temp', 'doubt.spike'))).toEqual([]);
    expect(gap(doubt(1, 'level', 'doubt.unconfirmed'))).toEqual([]);
    expect(gap(doubt(1, 'level', 'doubt.spike'))).toHaveLength(1);
    expect(gap(doubt(1, 'water_temp', 'doubt.unconfirmed'))).toHaveLength(1);
  });
});
