import { describe, expect, it } from 'vitest';
import type { Briefing } from '../../src/briefing/index.ts';
import { LAST_ISSUES, scoredIssues, type KeptIssue } from '../../src/verification/index.ts';
import { sampleFacts } from '../helpers/sampleBriefing.ts';
import { at, dateOf, lake } from './kit.ts';

const SAMPLE = sampleFacts({ demo: false });
function kept(day: number, change: Partial<Briefing> = {}, hour = 5.25): KeptIssue {
  const issuedMs = at(day, hour);
  const document = { ...SAMPLE, date: dateOf(day), issuedMs, ...change };
  return { localDate: dateOf(day), issuedMs, documentJson: JSON.stringify(document) };
}
const dates = (rows: readonly KeptIssue[], today = dateOf(20)): string[] =>
  scoredIssues(rows, lake.zone, today).map(({ date }) => date);

describe('issues that count', () => {
  it('are one a date, the first of it, in the order of time', () => {
    const rows = [kept(3, { status: 'amended' }, 9), kept(3), kept(2), kept(4, { status: 'corrected' }, 7)];
    const found = scoredIssues(rows, lake.zone, dateOf(20));
    expect(found.map(({ date, status }) => `${date} ${status}`)).toEqual([
      `${dateOf(2)} scheduled`,
      `${dateOf(3)} scheduled`,
      `${dateOf(4)} corrected`,
    ]);
  });

  it('are no demonstration, preview, NIL, afternoon issue, nor of today', () => {
    expect(
      dates([
        kept(2, { demo: true }),
        kept(3, { preview: true }),
        kept(4, { status: 'nil' }),
        kept(5, {}, 12.5),
        kept(20),
        kept(6),
      ]),
    ).toEqual([dateOf(6)]);
  });

  it('are the last thirty', () => {
    const rows = Array.from({ length: 40 }, (_, index) => kept(index + 1));
    const found = dates(rows, dateOf(50));
    expect(LAST_ISSUES).toBe(30);
    expect(found).toHaveLength(30);
    expect([found[0], found.at(-1)]).toEqual([dateOf(11), dateOf(40)]);
  });

  it('leave out what another version wrote in another form, without stopping', () => {
    const odd = { ...kept(2), documentJson: '{"demo":false,"conditions":"none"}' };
    expect(dates([odd, kept(3)])).toEqual([dateOf(3)]);
  });

  it('count from when they went out, where that was later than they were made', () => {
    const late = { ...kept(2), issuedMs: at(2, 8) };
    expect(scoredIssues([late], lake.zone, dateOf(20))[0]?.issuedMs).toBe(at(2, 8));
    const replayed = { ...kept(3), issuedMs: at(9, 8) };
    expect(dates([replayed])).toEqual([]);
  });
});
