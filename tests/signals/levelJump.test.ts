/** A newest level that jumped, as the record judges it and the page tells it. */
import { describe, expect, it } from 'vitest';
import { judgeSeries } from '../../src/record/quality/index.ts';
import { readSignals, type GapFact } from '../../src/signals/index.ts';
import { gauge, observation, recordView, testLake } from '../helpers/weatherRecord.ts';

const AS_OF = '2026-03-06T11:15:00Z';
const LAST_MS = Date.parse('2026-03-06T11:00:00Z');
const HOUR_MS = 3_600_000;
const STEP_M = 6 * 0.3048;

const morning = (...newest: number[]) => {
  const steady = gauge('level', LAST_MS - newest.length * HOUR_MS, 10, () => 280);
  const after = newest.map((level, i) =>
    observation('level', LAST_MS - (newest.length - 1 - i) * HOUR_MS, level),
  );
  return readSignals(
    recordView({ asOf: AS_OF, extra: judgeSeries([[...steady, ...after]]).flat() }),
    testLake,
  );
};
const gaps = ({ conditions }: ReturnType<typeof morning>): readonly GapFact[] =>
  conditions.gaps.map(({ fact }) => fact);
const codes = (report: ReturnType<typeof morning>): string[] => gaps(report).map(({ code }) => code);

describe('one value six feet above the last', () => {
  const report = () => morning(280 + STEP_M);

  it('gives no rate and moves no level', () => {
    const { level6hM, level24hM, level72hM, levelRateMPerH, levelM } = report().conditions.signals;
    for (const change of [level6hM, level24hM, level72hM, levelRateMPerH]) expect(change?.value).toBe(0);
    expect(levelM?.value).toBe(280);
  });

  it('is named once, with its size and what to do', () => {
    expect(gaps(report()).filter(({ code }) => code === 'levelJumped' || code === 'valuesDoubted')).toEqual([
      { code: 'levelJumped', where: 'at the dam', jumpM: expect.closeTo(STEP_M, 9) as number },
    ]);
  });

  it('counts as soon as the next value confirms it, and is forgotten when that one does not', () => {
    const confirmed = morning(280 + STEP_M, 280.1 + STEP_M);
    expect(confirmed.conditions.signals.level24hM?.value).toBeGreaterThan(1);
    expect(codes(confirmed)).not.toContain('levelJumped');
    const taken = morning(280 + STEP_M, 280);
    expect(taken.conditions.signals.level24hM?.value).toBe(0);
    expect(codes(taken)).not.toContain('levelJumped');
  });
});

it('the ten days end at the level that stands in the table', () => {
  const rising = gauge('level', LAST_MS, 10, (back) => 280 - back * 0.02);
  const { conditions, days } = readSignals(recordView({ asOf: AS_OF, extra: rising }), testLake);
  const today = days.find(({ date }) => date === conditions.date);
  expect(today?.levelM).toBe(conditions.signals.levelM?.value);
});
