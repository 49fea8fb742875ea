/** The days that are drawn: which they are, what belongs to each, and which of them are forecast. */
import { describe, expect, it } from 'vitest';
import type { PastOutlook, RecordView } from '../../src/record/types.ts';
import { readSignals, type DayPoint } from '../../src/signals/index.ts';
import { addDays } from '../../src/units/time/calendar.ts';
import { gauge, observation, recordView, testLake } from '../helpers/weatherRecord.ts';

const AS_OF = '2026-03-06T11:15:00Z'; // 05:15 at the lake
const HOUR = 3_600_000;
const LAST = Date.parse('2026-03-06T11:00:00Z');
const days = (view: RecordView): readonly DayPoint[] => readSignals(view, testLake).days;
const dayOf = (view: RecordView, date: string): DayPoint => {
  const day = days(view).find((one) => one.date === date);
  if (day === undefined) throw new Error(`no ${date}`);
  return day;
};

describe('a day that is drawn', () => {
  it('is one of nine behind, today, and six ahead', () => {
    const drawn = days(recordView({ asOf: AS_OF })).map(({ date }) => date);
    expect(drawn).toHaveLength(16);
    expect([drawn[0], drawn[9], drawn[15]]).toEqual(['2026-02-25', '2026-03-06', '2026-03-12']);
    expect(days({ ...recordView({ asOf: AS_OF }), observations: [] }).at(-1)?.date).toBe('2026-03-06');
  });

  it('has the level of the hour that begins it and not of the one that begins the next', () => {
    const midnight = Date.parse('2026-03-05T06:00:00Z');
    const rows = gauge('level', LAST, 4, (back) => (LAST - back * HOUR === midnight ? 124 : 100));
    const view = recordView({ asOf: AS_OF, extra: rows });
    expect(dayOf(view, '2026-03-05').levelM).toBeCloseTo(101, 9);
    expect(dayOf(view, '2026-03-04').levelM).toBeCloseTo(100, 9);
  });

  it('is forecast when it is to come, and today while more than half of its hours are', () => {
    const forecast = (asOf: string): string[] =>
      days(recordView({ asOf }))
        .filter((day) => day.forecast)
        .map(({ date }) => date);
    const ahead = [1, 2, 3, 4, 5, 6].map((lead) => addDays('2026-03-06', lead));
    expect(forecast('2026-03-06T17:15:00Z')).toEqual(['2026-03-06', ...ahead]); // 11:15, thirteen hours to come
    expect(forecast('2026-03-06T18:15:00Z')).toEqual(ahead); // 12:15, twelve
  });

  it('leaves out what is not known of it, and has today’s water as it was measured where no model runs', () => {
    const view = recordView({ asOf: AS_OF });
    const calm = view.observations.filter(({ variable }) => variable !== 'wind_speed');
    expect(dayOf({ ...view, observations: calm }, '2026-03-04')).not.toHaveProperty('windMs');
    expect(dayOf(view, '2026-03-04')).toMatchObject({ airMeanC: 8, rainMm: 0, windMs: 3, cloudPct: 40 });
    const measured = gauge('water_temp', LAST, 3, () => 12.5);
    expect(dayOf({ ...view, observations: measured }, '2026-03-06').waterC).toBe(12.5);
    expect(dayOf({ ...view, observations: measured }, '2026-03-05')).not.toHaveProperty('waterC');
  });
});

describe('days ahead of a lake whose outlooks ran too warm', () => {
  const water = gauge('water_temp', LAST, 50, () => 9);
  const issued = (count: number): PastOutlook[] =>
    Array.from({ length: count }, (_, i) => addDays('2026-03-04', -i)).flatMap((date) =>
      [1, 2, 3].map((leadDays) => ({ issued: date, leadDays, waterC: 11, halfC: 1 })),
    );
  const view = (count: number): RecordView => ({
    ...recordView({ asOf: AS_OF, extra: water }),
    outlooks: issued(count),
  });

  it('are corrected after thirty issues with an outcome, and keep beside it what the model said', () => {
    const day = dayOf(view(34), '2026-03-08');
    expect(day.waterRawC).toBeDefined();
    expect(day.waterC).toBeLessThan((day.waterRawC ?? Number.NaN) - 0.3);
    expect(dayOf(view(20), '2026-03-08')).not.toHaveProperty('waterRawC');
    expect(dayOf(view(34), '2026-03-05')).not.toHaveProperty('waterRawC');
  });

  it('say how many issues taught it, from the first on', () => {
    const taught = (count: number) => readSignals(view(count), testLake).outlook?.[0];
    expect(taught(34)).toMatchObject({ fromDays: 1, toDays: 3, learned: true });
    expect(taught(3)).toMatchObject({ learned: false, biasC: 0, spread: 1 });
    expect(taught(0)).toBeUndefined();
    // Looked ahead to today: what comes of it is not known yet.
    const today: RecordView = {
      ...view(0),
      outlooks: [{ issued: '2026-03-05', leadDays: 1, waterC: 11, halfC: 1 }],
    };
    expect(readSignals(today, testLake).outlook).toBeUndefined();
  });
});

it('rain that was measured on a day that a model left dry is that day’s rain', () => {
  const wet = Array.from({ length: 24 }, (_, i) =>
    observation('rain', Date.parse('2026-03-04T07:00:00Z') + i * HOUR, 0.5, { periodS: 3600 }),
  );
  expect(dayOf(recordView({ asOf: AS_OF, extra: wet }), '2026-03-04').rainMm).toBeCloseTo(12, 9);
});
