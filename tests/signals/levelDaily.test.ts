/** A gauge of which nothing finer than the mean of each day is sent. */
import { describe, expect, it } from 'vitest';
import type { Observation } from '../../src/record/types.ts';
import { readSignals } from '../../src/signals/index.ts';
import { wordsFor } from '../../src/words/index.ts';
import { say } from '../../src/words/catalogue.ts';
import { gauge, observation, recordView, testLake } from '../helpers/weatherRecord.ts';

const AS_OF = '2026-03-06T11:15:00Z'; // 05:15 at the lake
/** Midnight at the lake: the end of yesterday, which its mean is stamped with. */
const MIDNIGHT = Date.parse('2026-03-06T06:00:00Z');
const HOUR = 3_600_000;
const DAY = 24 * HOUR;

const daily = (levelM: (daysBack: number) => number, lastMs = MIDNIGHT, count = 366): Observation[] =>
  Array.from({ length: count }, (_, back) =>
    observation('level', lastMs - back * DAY, levelM(back), {
      station: 'USGS-1/62615/daily/d',
      periodS: 86_400,
    }),
  ).reverse();
const read = (extra: readonly Observation[], lake = testLake) =>
  readSignals(recordView({ asOf: AS_OF, extra, pastDays: 30 }), lake);
const factOf = ({ conditions }: ReturnType<typeof read>, id: string) =>
  conditions.gaps.find((gap) => gap.id === id)?.fact;

describe('a level of daily means alone', () => {
  const rising = read(daily((back) => 188 - 0.15 * back));

  it('is the last mean with its own age, and the changes from the means of a day and of three days before', () => {
    const { levelM, level24hM, level72hM } = rising.conditions.signals;
    expect(levelM).toMatchObject({ value: 188, kind: 'observed', asOfMs: MIDNIGHT, freshness: 'fresh' });
    expect(levelM?.source).toMatchObject({ code: 'gauge', isDayMean: true });
    expect(level24hM?.value).toBeCloseTo(0.15, 9);
    expect(level72hM?.value).toBeCloseTo(0.45, 9);
  });

  it('tells nothing of hours, and says why', () => {
    expect(rising.conditions.signals.level6hM).toBeUndefined();
    expect(rising.conditions.signals.levelRateMPerH).toBeUndefined();
    const fact = factOf(rising, 'level6hM')!;
    expect(fact).toEqual({ code: 'levelDailyOnly', where: 'at the dam', ageMs: 5.25 * HOUR });
    expect(say(wordsFor('en').signals.gap, fact)).toContain('a day that ended 5 hours ago');
  });

  it('has its place in the year and against normal pool', () => {
    const { conditions, levelBand } = read(
      daily((back) => 188 - back / 365),
      { ...testLake, normalPoolM: 187 },
    );
    expect(conditions.signals.levelVsNormalM?.value).toBeCloseTo(1, 9);
    expect(conditions.signals.levelBandShare?.value).toBeCloseTo(1, 9);
    expect(levelBand).not.toBeNull();
  });

  it('has no change across a day that is missing', () => {
    const hole = daily((back) => 188 - 0.15 * back).filter(({ atMs }) => atMs !== MIDNIGHT - DAY);
    const { level24hM, level72hM } = read(hole).conditions.signals;
    expect(level24hM).toBeUndefined();
    expect(level72hM?.value).toBeCloseTo(0.45, 9);
  });

  it('is yesterday to yesterday over the night in which clocks are set', () => {
    // 8 March 2026 has 23 hours at the lake.
    const days = ['2026-03-07T06:00:00Z', '2026-03-08T06:00:00Z', '2026-03-09T05:00:00Z'].map((at, i) =>
      observation('level', Date.parse(at), 188 + 0.2 * i, { station: 'USGS-1/d', periodS: 86_400 }),
    );
    const { conditions } = readSignals(
      recordView({ asOf: '2026-03-09T11:15:00Z', extra: days, pastDays: 30 }),
      testLake,
    );
    expect(conditions.signals.level24hM?.value).toBeCloseTo(0.2, 9);
  });

  it('that ended long ago is shown as the last and feeds nothing', () => {
    const old = read(daily(() => 188, MIDNIGHT - 6 * DAY));
    expect(old.conditions.signals.levelM).toBeUndefined();
    expect(factOf(old, 'levelM')).toMatchObject({ code: 'levelSilent' });
    expect(old.conditions.gaps.find(({ id }) => id === 'levelM')?.last?.value).toBe(188);
  });

  it('gives way to anything finer', () => {
    const hourly = gauge('level', Date.parse('2026-03-06T11:00:00Z'), 5, () => 190);
    const { conditions } = read([...daily(() => 188), ...hourly]);
    expect(conditions.signals.levelM?.value).toBe(190);
    expect(factOf({ conditions } as ReturnType<typeof read>, 'level6hM')).toBeUndefined();
  });
});
