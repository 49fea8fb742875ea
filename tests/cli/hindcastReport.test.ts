/** What the report of a hindcast says of its own scores. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { nowcastLake } from '../../src/water/lake/index.ts';
import { hindcastBench } from '../helpers/hindcastRun.ts';
import { inventedWeather } from '../water/lake/inventedWeather.ts';

const { file, hindcast, printed } = hindcastBench();
const weather = inventedWeather('2019-01-01', 500).map((d) => ({ ...d, airC: Number(d.airC!.toFixed(2)) }));
const site = { latDeg: 36, meanDepthM: 8, areaKm2: 5 };
const free = nowcastLake(site, weather, []).days;

const air = (rows = weather.map(({ date, airC }) => `${date},${airC}`)): string =>
  file('w.csv', `date,air_c\n${rows.join('\n')}\n`);
const water = (rows: readonly string[], header = 'date,water_c'): string =>
  file('r.csv', `${header}\n${rows.join('\n')}\n`);
const daily = (from: number, to: number, offC = 0): string[] =>
  free.slice(from, to).map(({ date, waterC }) => `${date},${(waterC + offC).toFixed(2)}`);

describe('doubted readings', () => {
  const outlier = `${free[330]!.date},${(free[330]!.waterC + 15).toFixed(2)}`;
  const rows = [...daily(300, 330), outlier, ...daily(331, 360)];

  it('stay in the scores, and the report counts them', () => {
    hindcast('--weather', air(), '--readings', water(rows));
    expect(printed()).toMatch(/On 1 of the 60 days scored the model doubted or refused a reading/);
  });

  it('are counted in the JSON, too', () => {
    hindcast('--weather', air(), '--readings', water(rows), '--json');
    const { scoredDaysDoubted, refused, score } = JSON.parse(printed());
    expect(scoredDaysDoubted).toBe(1);
    expect(refused).toHaveLength(1);
    // The outlier alone makes 15 K over 60 days.
    expect(score.model.days).toBe(60);
    expect(score.model.rmseC).toBeGreaterThan(15 / Math.sqrt(61));
  });
});

describe('readings with a time', () => {
  it('count as truth as the mean of their day at 1 m, not as the warm surface of an afternoon', () => {
    const scored = (rows: string[], header?: string): { biasC: number; converted: number } => {
      const before = printed().length;
      hindcast('--weather', air(), '--readings', water(rows, header), '--reading-lag', '365', '--json');
      const report = JSON.parse(printed().slice(before));
      return { biasC: report.score.model.biasC, converted: report.readingsConverted };
    };
    const means = daily(150, 210);
    const mean = scored(means);
    const at = (time: string): string[] => means.map((row) => `${row},${time},0.2`);
    const afternoon = scored(at('17:30'), 'date,water_c,time,depth_m');
    const morning = scored(at('05:30'), 'date,water_c,time,depth_m');
    expect(mean).toEqual({ biasC: expect.closeTo(0, 2), converted: 0 });
    expect([afternoon.converted, morning.converted]).toEqual([60, 60]);
    // 0.32 K per 100 W/m2 of the day's mean sun, some 200 to 350 W/m2 from June on, as the model takes it off.
    expect(afternoon.biasC).toBeGreaterThan(0.5);
    expect(afternoon.biasC).toBeLessThan(1.5);
    expect(morning.biasC).toBeCloseTo(-afternoon.biasC, 1);
  });

  it('are named in the text, and only where there are any', () => {
    const [one = ''] = daily(200, 201);
    hindcast('--weather', air(), '--readings', water([`${one},15:00`], 'date,water_c,time'));
    expect(printed()).toMatch(/1 of them have a time: they are compared as the mean of their day at 1 m/);
    hindcast('--weather', air(), '--readings', water([one]));
    expect(printed().match(/have a time/g)).toHaveLength(1);
  });
});

describe('a reading lag of no days', () => {
  it('gives no score for holding a reading against itself, and says why', () => {
    hindcast('--weather', air(), '--readings', water(daily(300, 360)), '--reading-lag', '0');
    expect(printed()).toMatch(/last reading held: left out, for with --reading-lag 0/);
    expect(printed()).not.toMatch(/last reading held +\d/);
    expect(printed()).not.toMatch(/not enough readings\n.*last/);
  });

  it('leaves it null in the JSON; one day of lag brings it back', () => {
    hindcast('--weather', air(), '--readings', water(daily(300, 360)), '--reading-lag', '0', '--json');
    const { score } = JSON.parse(printed());
    expect([score.persistence, score.modelWherePersistence]).toEqual([null, null]);
    hindcast('--weather', air(), '--readings', water(daily(300, 360)));
    expect(printed()).toMatch(/last reading held +59/);
  });
});

describe('gaps in the weather', () => {
  const kept = (gap: number): string[] =>
    weather.flatMap(({ date, airC }, i) => (i >= 200 && i < 200 + gap ? [] : [`${date},${airC}`]));
  const emptied = (gap: number): string[] =>
    weather.map(({ date, airC }, i) => (i >= 200 && i < 200 + gap ? `${date},` : `${date},${airC}`));

  it.each([
    ['missing lines', kept],
    ['empty fields', emptied],
  ])('of 40 days as %s: ten are bridged, thirty have no estimate, and both are counted', (_, rows) => {
    const out = hindcast('--weather', air(rows(40)), '--json');
    expect(JSON.parse(printed())).toMatchObject({ days: 470, daysBridged: 10, daysWithoutEstimate: 30 });
    expect(readFileSync(out, 'utf8').trim().split('\n')).toHaveLength(471);
  });

  it.each([
    ['missing lines', kept],
    ['empty fields', emptied],
  ])('of ten days as %s are bridged, and the text says so', (_, rows) => {
    hindcast('--weather', air(rows(10)));
    expect(printed()).toMatch(/500 days from/);
    expect(printed()).toMatch(/10 day\(s\) without air temperature bridged \(up to 10 days on end\)/);
    expect(printed()).not.toMatch(/without an estimate/);
  });

  it('before the first value of the air are days without an estimate', () => {
    hindcast(
      '--weather',
      air(weather.map(({ date, airC }, i) => (i < 5 ? `${date},` : `${date},${airC}`))),
      '--json',
    );
    expect(JSON.parse(printed())).toMatchObject({ days: 495, daysBridged: 0, daysWithoutEstimate: 5 });
  });
});
