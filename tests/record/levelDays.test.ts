import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { freshRecord } from '../helpers/record.ts';
import { type Observation, type RecordStore } from '../../src/record/index.ts';
import { DAY, HOUR, row, START } from './rows.ts';

let record: RecordStore;
beforeEach(async () => {
  record = await freshRecord();
});
afterEach(() => record.close());

const HOURS = 100 * 24;
const END = START + HOURS * HOUR;
const levels = (of: (h: number) => number, part: Partial<Observation> = {}): Observation[] =>
  Array.from({ length: HOURS }, (_, h) =>
    row({ variable: 'level', station: 'L/1', value: of(h), atMs: START + h * HOUR, ...part }),
  );
const slow = (h: number): number => 188 + Math.sin(h / 300) + 0.01 * Math.sin(h);
const daysOf = async () =>
  (await record.view('pine-hollow', END, { days: 120, levelRowDays: 45 })).levelDays ?? [];

describe('daily levels of a long span', () => {
  it('are the means of the rows of each UTC day, with rows themselves only from the last days', async () => {
    await record.putObservations(levels(slow));
    const view = await record.view('pine-hollow', END, { days: 120, levelRowDays: 45 });
    expect(view.observations).toHaveLength(45 * 24 - 1); // the last row is an hour old
    expect(view.levelDays).toHaveLength(100);
    for (const [i, day] of (view.levelDays ?? []).entries()) {
      const own = Array.from({ length: 24 }, (_, h) => slow(i * 24 + h));
      expect(day.levelM).toBeCloseTo(own.reduce((a, b) => a + b, 0) / 24, 9);
      expect(day.atMs).toBe(START + i * DAY + DAY / 2);
    }
  });

  it('are not computed, and no row is left out, for who does not ask', async () => {
    await record.putObservations(levels(slow));
    const view = await record.view('pine-hollow', END, { days: 120 });
    expect(view.levelDays).toBeUndefined();
    expect(view.observations).toHaveLength(HOURS);
  });

  it('leave out a code for "missing", a lone spike, and what the service itself doubted', async () => {
    const rows = levels(slow).map((one, h) =>
      h === 500
        ? { ...one, value: -9999 }
        : h === 700
          ? { ...one, value: 230 }
          : h === 900
            ? { ...one, value: 201, doubt: { code: 'doubt.stated' as const, text: 'rejected' } }
            : one,
    );
    await record.putObservations(rows);
    for (const [i, day] of (await daysOf()).entries()) {
      const own = Array.from({ length: 24 }, (_, h) => i * 24 + h).filter(
        (h) => ![500, 700, 900].includes(h),
      );
      expect(day.levelM).toBeCloseTo(own.reduce((a, h) => a + slow(h), 0) / own.length, 9);
    }
  });

  it('carry a doubt before the day on which the zero of the gauge was moved', async () => {
    await record.putObservations(levels((h) => slow(h) + (h < 1000 ? 0 : 31)));
    const days = (await daysOf()).filter(({ doubt }) => doubt === undefined);
    expect(await daysOf()).toHaveLength(100);
    // Hour 1000 is hour 16 of day 41: that day has both zeros.
    expect(days[0]?.atMs).toBe(START + 42 * DAY + DAY / 2);
    expect(days).toHaveLength(58);
  });

  it('keep a flood, and the steps of turbines', async () => {
    await record.putObservations(
      levels(
        (h) => slow(h) + (h > 1000 ? 6 * Math.exp(-(h - 1000) / 200) * Math.min(1, (h - 1000) / 20) : 0),
      ),
    );
    const believed = async () => (await daysOf()).filter(({ doubt }) => doubt === undefined);
    expect(await believed()).toHaveLength(100);
    await record.putObservations(levels((h) => slow(h) + (h % 24 > 7 && h % 24 < 19 ? 0.9 : 0)));
    expect(await believed()).toHaveLength(100);
  });

  it('are kept apart by datum and series, and a daily value belongs to the day that it ends', async () => {
    await record.putObservations([
      ...levels(slow, { datum: 'NAVD88' }),
      ...levels((h) => slow(h) - 0.2, { datum: 'NGVD29' }),
      row({
        variable: 'level',
        station: 'L/daily',
        value: 187,
        periodS: 86_400,
        atMs: START + 6 * DAY + 6 * HOUR,
      }),
    ]);
    const days = await daysOf();
    expect(days.filter((day) => day.datum === 'NAVD88')).toHaveLength(100);
    expect(days.filter((day) => day.datum === 'NGVD29')).toHaveLength(100);
    expect(days.filter((day) => day.station === 'L/daily')).toEqual([
      expect.objectContaining({ atMs: START + 5 * DAY + DAY / 2, levelM: 187, periodS: 86_400 }),
    ]);
  });
});
