import { DateTime } from 'luxon';
import { describe, expect, it } from 'vitest';
import { readSignals } from '../../src/signals/index.ts';
import { observation, recordView, testLake } from '../helpers/weatherRecord.ts';

const local = (ms: number): DateTime => DateTime.fromMillis(ms, { zone: testLake.zone });

// Clocks of America/Chicago go forward on 2026-03-08 and back on 2026-11-01 (IANA time zone database).
describe('around a clock change', () => {
  it.each([
    ['two days before the change in spring', '2026-03-06T05:15'],
    ['on the day that is an hour short', '2026-03-08T05:15'],
    ['two days before the change in autumn', '2026-10-30T05:15'],
    ['on the day that is an hour long', '2026-11-01T05:15'],
  ])('the days ahead are judged at the same time by the clock, %s', (_, at) => {
    const asOf = DateTime.fromISO(at, { zone: testLake.zone }).toUTC().toISO() ?? '';
    const { ahead } = readSignals(recordView({ asOf }), testLake);
    expect(ahead.length).toBeGreaterThanOrEqual(3);
    for (const { date, conditions } of ahead)
      expect(local(conditions.asOfMs).toFormat("yyyy-MM-dd'T'HH:mm")).toBe(`${date}T05:15`);
  });

  it('the last hour of the long day belongs to it and not to the next', () => {
    const dayStart = DateTime.fromISO('2026-11-01', { zone: testLake.zone });
    const levels = Array.from({ length: 48 }, (_, i) => {
      const atMs = dayStart.plus({ hours: i }).toMillis();
      return observation('level', atMs, i === 24 ? 124 : 100);
    });
    const { days } = readSignals(recordView({ asOf: '2026-11-03T12:00:00Z', extra: levels }), testLake);
    expect(days.find(({ date }) => date === '2026-11-01')?.levelM).toBeCloseTo(100 + 24 / 25, 6);
    expect(days.find(({ date }) => date === '2026-11-02')?.levelM).toBeCloseTo(100, 6);
  });
});
