import { describe, expect, it } from 'vitest';
import { nowcastLake, type WaterReading } from '../../src/water/lake/index.ts';
import type { Refusal } from '../../src/water/refusal.ts';
import { nowcastRiver } from '../../src/water/river/index.ts';
import { dateAfter, gaugeReading, inventedWeather } from './lake/inventedWeather.ts';

const START = '2020-01-01';
const weather = inventedWeather(START, 600);
const site = { latDeg: 36, meanDepthM: 8, areaKm2: 5 };
const on = (i: number): string => dateAfter(START, i);
const waters = {
  lake: (readings: readonly WaterReading[]) => nowcastLake(site, weather, readings),
  river: (readings: readonly WaterReading[]) => nowcastRiver('lowland', weather, readings),
};

describe.each(['lake', 'river'] as const)('a refused reading of a %s', (kind) => {
  const free = waters[kind]([]).days;
  const freeC = (i: number): number => free[i]!.waterC;
  const taught = [300, 307, 314, 321, 328].map((i) => gaugeReading(on(i), freeC(i)));
  const told = (readings: readonly WaterReading[]): Refusal[] =>
    waters[kind](readings).refused.map(({ reason }) => reason);

  it('in another unit names the value and the water', () => {
    expect(told([gaugeReading(on(500), 52)])).toEqual([{ code: 'notWater', waterC: 52, water: kind }]);
  });

  it('that is no number says so', () => {
    expect(told([gaugeReading(on(500), Number.NaN)])).toEqual([{ code: 'notANumber' }]);
  });

  it('far off names by how much, and what became of it', () => {
    const far = told([...taught, gaugeReading(on(335), freeC(335) + 9)]).at(-1);
    expect(far).toMatchObject({ code: 'tooFar', of: kind, fate: 'leftOut' });
    expect(far?.code === 'tooFar' ? far.differenceC : NaN).toBeGreaterThan(8);
    expect(far?.code === 'tooFar' ? far.differenceC : NaN).toBeLessThan(10);
  });

  it('of a stuck thermometer names its value, the days and how far the water moved', () => {
    const stuck = told(Array.from({ length: 60 }, (_, i) => gaugeReading(on(400 + i), 15))).at(-1);
    expect(stuck).toMatchObject({ code: 'stuck', waterC: 15, water: kind });
    expect(stuck?.code === 'stuck' ? stuck.days : 0).toBeGreaterThanOrEqual(4);
    expect(stuck?.code === 'stuck' ? stuck.movedC : 0).toBeGreaterThanOrEqual(2.5);
  });

  it('does not say that a reading stands alone when another one agrees with it', () => {
    const off = [335, 337].map((i) => gaugeReading(on(i), freeC(i) + 9));
    const { refused } = waters[kind]([...taught, ...off]);
    expect(refused.map(({ reading }) => reading)).toEqual([off[0]]);
  });
});

describe('a refused reading of a lake', () => {
  const summer = 550;
  const freeC = waters.lake([]).days[summer]!.waterC;

  it('from below the warm layer names its depth', () => {
    const { refused } = waters.lake([gaugeReading(on(summer), freeC, { depthM: 6 })]);
    expect(refused[0]!.reason).toEqual({ code: 'belowWarmLayer', depthM: 6 });
  });

  it('of a dry thermometer names the range of the day', () => {
    const dry = [2, 8, 14, 20].map((hour, i) => gaugeReading(on(summer), freeC + 4 * i, { hour }));
    expect(waters.lake(dry).refused[0]!.reason).toEqual({
      code: 'swingsLikeAir',
      rangeC: expect.closeTo(12, 9) as number,
    });
  });
});
