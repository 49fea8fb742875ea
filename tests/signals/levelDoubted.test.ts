/** A level that is not believed is not known: no figure, no change, and the page says so. */
import { describe, expect, it } from 'vitest';
import type { LakeConfig } from '../../src/config/types.ts';
import { judgeSeries } from '../../src/record/quality/index.ts';
import type { Observation } from '../../src/record/types.ts';
import { readSignals } from '../../src/signals/index.ts';
import { say } from '../../src/words/catalogue.ts';
import { wordsFor } from '../../src/words/index.ts';
import { gauge, observation, recordView, testLake } from '../helpers/weatherRecord.ts';

const AS_OF = '2026-03-06T11:15:00Z';
const LAST_MS = Date.parse('2026-03-06T11:00:00Z');
const HOUR_MS = 3_600_000;
const LEVELS = ['levelM', 'level6hM', 'level24hM', 'level72hM', 'levelRateMPerH', 'levelVsNormalM'] as const;

const morning = (rows: readonly Observation[], lake: Partial<LakeConfig> = {}) =>
  readSignals(recordView({ asOf: AS_OF, extra: judgeSeries([rows]).flat() }), { ...testLake, ...lake });
const known = (report: ReturnType<typeof morning>) =>
  LEVELS.filter((id) => report.conditions.signals[id] !== undefined);
const codes = (report: ReturnType<typeof morning>) => report.conditions.gaps.map(({ fact }) => fact.code);
const said = (report: ReturnType<typeof morning>) =>
  report.conditions.gaps.map(({ fact }) => say(wordsFor('en').signals.gap, fact)).join(' ');
/** Level of ten days, of which the last hours are another. */
const stepped = (hours: number, otherM: number, levelM = 188) =>
  gauge('level', LAST_MS, 10, (back) => (back < hours ? otherM : levelM) + 0.001 * back);

describe('a gauge that went over to another unit', () => {
  it('tells no level and no change in its first day, and the page says why, once', () => {
    const report = morning(stepped(6, 188 * 0.3048));
    expect(known(report)).toEqual([]);
    expect(codes(report).filter((code) => code === 'levelNotBelieved')).toHaveLength(2);
    expect(codes(report)).not.toContain('valuesDoubted');
    expect(said(report)).toMatch(/a step of \S*130\.699\S* that no water makes/);
    expect(said(report)).toContain('the level and its changes are not known');
  });

  it('gives way to the second gauge, which is told', () => {
    const second = gauge('level', LAST_MS, 10, () => 187, { station: 'USGS-2' });
    const rows = [...judgeSeries([stepped(6, 57)]).flat(), ...second];
    const report = readSignals(recordView({ asOf: AS_OF, extra: rows }), testLake);
    expect(report.conditions.signals.levelM?.value).toBe(187);
    expect(codes(report)).not.toContain('levelNotBelieved');
  });

  it('is taken at its new word after a day, unless it left normal pool by it', () => {
    expect(morning(stepped(30, 57)).conditions.signals.levelM?.value).toBeCloseTo(57, 2);
    const left = morning(stepped(30, 57), { normalPoolM: 189 });
    expect(known(left)).toEqual([]);
    expect(codes(left)).toContain('levelNotBelieved');
  });
});

describe('a lake', () => {
  it('makes no step of more than two metres from rest to rest, and a tailwater does', () => {
    const rows = stepped(6, 5.5, 8);
    expect(known(morning(rows))).toEqual([]);
    expect(morning(rows, { waterBody: 'tailwater' }).conditions.signals.levelM?.value).toBeCloseTo(5.5, 1);
    expect(morning(rows, { belowDam: true }).conditions.signals.levelM?.value).toBeCloseTo(5.5, 1);
  });

  it('does not fall or rise by three mean depths in three days', () => {
    const moving = (perHour: number) =>
      gauge('level', LAST_MS, 10, (back) => 188 - perHour * Math.min(back, 60));
    for (const perHour of [-0.7, 0.7]) {
      const report = morning(moving(perHour));
      expect(known(report)).toEqual([]);
      expect(said(report)).toContain('more than this lake can');
    }
    expect(known(morning(moving(0.5)))).toContain('level24hM');
  });
});

describe('a gauge whose values cannot be placed in time', () => {
  const doubted = (hours: number, doubt: NonNullable<Observation['doubt']>) =>
    stepped(0, 0).map((row) => (row.atMs > LAST_MS - hours * HOUR_MS ? { ...row, doubt } : row));
  it('by a wrong clock or by two values for an instant tells no level', () => {
    for (const doubt of [
      { code: 'doubt.clock', aheadMs: 6 * HOUR_MS },
      { code: 'doubt.twoValues', apart: 3.7 },
    ] as const) {
      expect(known(morning(doubted(24, doubt)))).toEqual([]);
      expect(known(morning(doubted(1000, doubt)))).toEqual([]);
      expect(codes(morning(doubted(1000, doubt)))).toContain('levelNotBelieved');
    }
  });

  it('is believed again with the next good value', () => {
    const rows = doubted(1000, { code: 'doubt.twoValues', apart: 1 }).slice(0, -1);
    const report = morning([...rows, observation('level', LAST_MS, 188)]);
    expect(report.conditions.signals.levelM?.value).toBe(188);
  });
});

it('a thermometer by a wrong clock is not called silent', () => {
  const rows = gauge('water_temp', LAST_MS, 10, (back) => 9 + 0.3 * Math.sin(back / 5)).map((row) => ({
    ...row,
    doubt: { code: 'doubt.clock', aheadMs: HOUR_MS } as const,
  }));
  const report = morning(rows);
  expect(codes(report)).toContain('thermometerNotBelieved');
  expect(codes(report)).not.toContain('thermometerSilent');
});
