/** The coming day as the evening before knows it. */
import { describe, expect, it } from 'vitest';
import { readTwoDays, type SignalReport } from '../../src/signals/index.ts';
import { gauge, recordView, testLake } from '../helpers/weatherRecord.ts';

const EVENING = '2026-03-06T23:30:00Z'; // 17:30 at the lake
const LAST = Date.parse('2026-03-06T23:00:00Z');
const read = (aheadDays = 7, weatherAgeH = 0) => {
  const extra = gauge('level', LAST, 5, (back) => 100 - back / 100);
  return readTwoDays(
    recordView({
      asOf: EVENING,
      pastDays: 20,
      aheadDays,
      weatherAgeH,
      extra,
      weather: (local) => ({ air: local.day, wind: local.day }),
    }),
    testLake,
  );
};
const coming = (): SignalReport => {
  const { nextDay } = read();
  if (nextDay === null) throw new Error('no next day');
  return nextDay;
};

describe('the coming day', () => {
  it('is judged at the hour of its morning issue, by its forecast', () => {
    const { conditions, hours, sun } = coming();
    expect(conditions).toMatchObject({ date: '2026-03-07', asOfMs: Date.parse('2026-03-07T11:15:00Z') });
    expect(conditions.signals.windMs).toMatchObject({ value: 7, kind: 'forecast' });
    expect(conditions.signals.waterC?.kind).toBe('forecast');
    expect(hours).toHaveLength(24);
    expect(hours[0]?.atMs).toBe(Date.parse('2026-03-07T06:00:00Z'));
    expect(sun.riseMs).toBeGreaterThan(Date.parse('2026-03-07T11:00:00Z'));
  });

  it('has the level as it stands now, and the gaps of now', () => {
    const { today } = read();
    expect(coming().conditions.signals.level24hM).toEqual(today.conditions.signals.level24hM);
    expect(coming().conditions.gaps).toEqual(today.conditions.gaps);
  });

  it('looks ahead to the days after it, each a day nearer', () => {
    const ahead = ({ ahead: days }: SignalReport) => days.map(({ date, lead }) => [date, lead]);
    expect(ahead(read().today)[0]).toEqual(['2026-03-07', 1]);
    expect(ahead(coming())[0]).toEqual(['2026-03-08', 1]);
    expect(ahead(coming())).toHaveLength(ahead(read().today).length - 1);
  });

  it('is not told where the forecast does not reach through it, or is too old', () => {
    expect(read(1).nextDay).toBeNull();
    expect(read(2).nextDay).not.toBeNull();
    expect(read(7, 60).nextDay).toBeNull();
  });
});
