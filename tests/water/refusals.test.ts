import { describe, expect, it } from 'vitest';
import { expandQuantities } from '../../src/units/index.ts';
import { nowcastLake, type WaterReading } from '../../src/water/lake/index.ts';
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
const summer = 550;

describe.each(['lake', 'river'] as const)('the sentence of a refused reading of a %s', (kind) => {
  const free = waters[kind]([]).days;
  const freeC = (i: number): number => free[i]!.waterC;
  const taught = [300, 307, 314, 321, 328].map((i) => gaugeReading(on(i), freeC(i)));
  const told = (readings: readonly WaterReading[]): string[] =>
    waters[kind](readings).refused.map(({ reason }) => reason);

  const cases: Record<string, [reading: readonly WaterReading[], us: RegExp]> = {
    'in another unit': [[gaugeReading(on(500), 52)], /^126 °F cannot be/],
    'far off': [[...taught, gaugeReading(on(335), freeC(335) + 9)], /^It is 1[5-7](\.\d)? °F above/],
    'of a stuck thermometer': [
      Array.from({ length: 60 }, (_, i) => gaugeReading(on(400 + i), 15)),
      /has shown 59(\.0)? °F for \d+ days/,
    ],
  };
  for (const [name, [readings, us]] of Object.entries(cases))
    it(`that is ${name} leaves the units to the reader`, () => {
      const reason = told(readings).at(-1)!;
      expect(reason).not.toMatch(/ K\b|°C/);
      expect(expandQuantities(reason, 'us')).toMatch(us);
    });

  it('that is no number says so', () => {
    expect(told([gaugeReading(on(500), Number.NaN)])).toEqual([expect.stringMatching(/no number/)]);
  });

  it('does not say that a reading stands alone when another one agrees with it', () => {
    const off = [335, 337].map((i) => gaugeReading(on(i), freeC(i) + 9));
    const { refused } = waters[kind]([...taught, ...off]);
    expect(refused.map(({ reading }) => reading)).toEqual([off[0]]);
  });
});

describe('the sentence of a refused reading of a lake', () => {
  const freeC = waters.lake([]).days[summer]!.waterC;

  it('leaves the depth to the reader', () => {
    const deep = waters.lake([gaugeReading(on(summer), freeC, { depthM: 6 })]).refused[0]!.reason;
    expect(expandQuantities(deep, 'us')).toMatch(/^At 20 ft /);
  });

  it('leaves the range of a dry thermometer to the reader', () => {
    const dry = [2, 8, 14, 20].map((hour, i) => gaugeReading(on(summer), freeC + 4 * i, { hour }));
    expect(expandQuantities(waters.lake(dry).refused[0]!.reason, 'us')).toMatch(
      /moved by 2[12](\.\d)? °F within/,
    );
  });
});
