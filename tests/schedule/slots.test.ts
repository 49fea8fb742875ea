/** When an issue is due. Clock changes of America/Chicago in 2026: 8 March and 1 November (tz database, from memory). */
import fc from 'fast-check';
import { DateTime } from 'luxon';
import { describe, expect, it } from 'vitest';
import { dueSlots, nextIssueMs, refreshDue, type KnownRun, type SlotLake } from '../../src/schedule/index.ts';

const lake: SlotLake = {
  id: 'ossarly',
  zone: 'America/Chicago',
  issueAt: '05:15',
  graceMinutes: 180,
  eveningOutlook: false,
};
const at = (iso: string): number => DateTime.fromISO(iso, { zone: lake.zone }).toMillis();
const run = (localDate: string, state: KnownRun['state'] = 'issued', leaseUntilMs = 0): KnownRun => ({
  lakeId: 'ossarly',
  localDate,
  edition: 'morning',
  state,
  leaseUntilMs,
});
const due = (iso: string, runs: KnownRun[] = [], of: SlotLake = lake): string[] =>
  dueSlots(at(iso), [of], runs).map((s) => `${s.localDate} ${s.edition} ${s.action}`);

describe('a slot', () => {
  it('is due from its local time on, not before', () => {
    expect(due('2026-03-06T05:14:59')).toEqual([]);
    expect(due('2026-03-06T05:15:00')).toEqual(['2026-03-06 morning issue']);
  });

  it.each([
    '2026-03-07',
    '2026-03-08',
    '2026-03-09',
    '2026-10-31',
    '2026-11-01',
    '2026-11-02',
    '2028-02-29',
    '2026-12-31',
  ])('falls at 05:15 by the clock on the wall on %s', (date) => {
    const [slot] = dueSlots(at(`${date}T05:15`), [lake], []);
    expect(DateTime.fromMillis(slot?.dueMs ?? 0, { zone: lake.zone }).toFormat('yyyy-MM-dd HH:mm')).toBe(
      `${date} 05:15`,
    );
    expect(due(`${date}T05:14:59`)).toEqual([]);
  });

  it('exists once also when its local time is skipped in spring or comes twice in autumn', () => {
    for (const [date, issueAt] of [
      ['2026-03-08', '02:30'],
      ['2026-11-01', '01:30'],
    ] as const) {
      const odd = { ...lake, issueAt };
      const start = DateTime.fromISO(date, { zone: lake.zone }).toMillis();
      let issued: KnownRun[] = [run(DateTime.fromISO(date).minus({ days: 1 }).toFormat('yyyy-MM-dd'))];
      for (let ms = start; ms < start + 23 * 3_600_000; ms += 300_000) {
        const slots = dueSlots(ms, [odd], issued);
        issued = [...issued, ...slots.map((s) => run(s.localDate))];
      }
      expect(issued.map((r) => r.localDate).slice(1)).toEqual([date]);
    }
  });

  it('is caught up within grace and written down as missed after it', () => {
    const yesterday = [run('2026-03-05')];
    expect(due('2026-03-06T08:15', yesterday)).toEqual(['2026-03-06 morning issue']);
    expect(due('2026-03-06T08:16', yesterday)).toEqual(['2026-03-06 morning miss']);
    expect(due('2026-03-08T06:00', yesterday)).toEqual([
      '2026-03-06 morning miss',
      '2026-03-07 morning miss',
      '2026-03-08 morning issue',
    ]);
  });

  it('of the time before a lake was first seen does not count as missed', () => {
    expect(due('2026-03-06T14:00')).toEqual([]);
  });

  it('is left alone while somebody works on it, taken over when they are gone, tried again when it failed', () => {
    const now = at('2026-03-06T05:20');
    expect(due('2026-03-06T05:20', [run('2026-03-06', 'claimed', now + 1)])).toEqual([]);
    expect(due('2026-03-06T05:20', [run('2026-03-06', 'claimed', now)])).toEqual([
      '2026-03-06 morning issue',
    ]);
    expect(due('2026-03-06T05:20', [run('2026-03-06', 'failed')])).toEqual(['2026-03-06 morning issue']);
    expect(due('2026-03-06T09:00', [run('2026-03-06', 'failed')])).toEqual(['2026-03-06 morning miss']);
  });

  it('is not issued a second time when the clock is set back', () => {
    const runs = [run('2026-03-05'), run('2026-03-06')];
    expect(due('2026-03-06T05:15', runs)).toEqual([]);
    expect(due('2026-03-05T05:15', runs)).toEqual([]);
    expect(due('1970-01-01T06:00', runs)).toEqual([]);
    // A clock that once ran years ahead does not silence the years between.
    expect(due('2026-03-07T05:15', [...runs, run('2031-01-01')])).toEqual(['2026-03-07 morning issue']);
  });

  it('comes in the evening too where it is wanted', () => {
    const both = { ...lake, eveningOutlook: true };
    expect(due('2026-03-06T18:30', [run('2026-03-06')], both)).toEqual(['2026-03-06 evening issue']);
    expect(due('2026-03-06T18:30', [run('2026-03-06')])).toEqual([]);
  });
});

describe('the next issue', () => {
  it('lies at most 25 h ahead, always in the future, at the issue time of the wall clock', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: at('2024-01-01'), max: at('2030-01-01') }),
        fc.constantFrom(
          'America/Chicago',
          'Europe/London',
          'Australia/Lord_Howe',
          'Asia/Kolkata',
          'America/St_Johns',
        ),
        (now, zone) => {
          const next = nextIssueMs(now, { ...lake, zone });
          expect(next).toBeGreaterThan(now);
          expect(next - now).toBeLessThanOrEqual(25 * 3_600_000);
          expect(DateTime.fromMillis(next, { zone }).toFormat('HH:mm')).toBe('05:15');
        },
      ),
    );
  });
});

describe('a refresh', () => {
  it('runs hourly before the issue, three-hourly otherwise, once within the last half hour, and after a clock set back', () => {
    const issue = at('2026-03-06T05:15');
    const minutes = (m: number): number => issue + m * 60_000;
    expect(refreshDue(minutes(-180), lake, null)).toBe(true);
    expect(refreshDue(minutes(-180), lake, minutes(-239))).toBe(false);
    expect(refreshDue(minutes(-180), lake, minutes(-240))).toBe(true);
    expect(refreshDue(minutes(300), lake, minutes(130))).toBe(false);
    expect(refreshDue(minutes(300), lake, minutes(120))).toBe(true);
    expect(refreshDue(minutes(-29), lake, minutes(-31))).toBe(true);
    expect(refreshDue(minutes(-20), lake, minutes(-29))).toBe(false);
    expect(refreshDue(minutes(-180), lake, minutes(500))).toBe(true);
  });
});
