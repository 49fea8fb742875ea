import { describe, expect, it } from 'vitest';
import {
  correctByReadings,
  simulatePocket,
  type PocketHour,
  type PocketReading,
  type PocketRun,
  type PocketShape,
} from '../../../src/water/pocket/index.ts';
import { handmade, START_MS, Z80 } from './handmade.ts';
import { BACK, DRAW, HOUR, OPEN, spell } from './weather.ts';

/** At the end of hour `i` of a handmade run. */
const taken = (i: number, waterC: number, more: Partial<PocketReading> = {}): PocketReading => ({
  atMs: START_MS + (i + 1) * HOUR,
  waterC,
  depthM: 0.2,
  sdC: 0.5,
  ...more,
});
const surface = (run: PocketRun, i: number): number => run.hours[i]?.surfaceC ?? NaN;
const half = (run: PocketRun, i: number): number =>
  (run.hours[i]?.highC ?? NaN) - (run.hours[i]?.surfaceC ?? NaN);

/**
 * The update of one number by one reading: gain P / (P + R), mean + gain * (reading - mean), variance (1 - gain) P.
 * Welch and Bishop, An Introduction to the Kalman Filter (UNC-Chapel Hill TR 95-041), eqs. 1.11 to 1.13; equation
 * numbers from memory.
 */
describe('a reading in a pocket whose errors are known', () => {
  // Of the variance that no doubt explains 0.4 last, 0.4 fade and 0.2 are the hour's own: shares stated in the model.
  const floorVar = 1 / Z80 ** 2;
  const [lasting, fading, ownHour] = [0.4 * floorVar, 0.4 * floorVar, 0.2 * floorVar];
  const noise = 0.5 ** 2 + ownHour;
  const total = lasting + fading + noise;

  it('moves the estimate by the scalar Kalman gain', () => {
    const { run, used, refused } = correctByReadings(handmade(5), [taken(2, 11)]);
    expect(surface(run, 2) - 10).toBeCloseTo((lasting + fading) / total, 12);
    expect(used).toHaveLength(1);
    expect(refused).toHaveLength(0);
    expect(run.hours[2]?.minusMainC).toBeCloseTo((lasting + fading) / total, 12);
    expect(run.hours[2]?.meanC).toBeCloseTo(surface(run, 2), 12);
  });

  it('of many without forgetting gives what all at once give: the mean weighted by precision', () => {
    const values = [10.4, 11.1, 10.9, 11.4];
    const { run } = correctByReadings(
      handmade(6),
      values.map((waterC, i) => taken(i, waterC)),
    );
    const precision = 1 / (lasting + fading) + values.length / noise;
    const mean = values.reduce((sum, t) => sum + (t - 10) / noise, 0) / precision;
    expect(surface(run, 5) - 10).toBeCloseTo(mean, 12);
    expect(half(run, 5)).toBeCloseTo(Z80 * Math.sqrt(1 / precision + ownHour), 12);
  });

  it('fades by what the pocket keeps each hour, down to the lasting part', () => {
    const keepEach = 0.9;
    const { run } = correctByReadings(handmade(40, { keepEach }), [taken(4, 11)]);
    for (const after of [0, 1, 5, 20, 35]) {
      const exact = (lasting + fading * keepEach ** after) / total;
      expect(surface(run, 4 + after) - 10).toBeCloseTo(exact, 12);
    }
  });

  it('narrows the interval, which widens again as the fading part is forgotten', () => {
    const keepEach = 0.9;
    const { run } = correctByReadings(handmade(80, { keepEach }), [taken(4, 11)]);
    for (const after of [0, 1, 5, 20, 70]) {
      const kept = keepEach ** after;
      const fadingNow = kept ** 2 * (fading - fading ** 2 / total) + (1 - kept ** 2) * fading;
      const variance = lasting - lasting ** 2 / total + fadingNow - (2 * kept * lasting * fading) / total;
      expect(half(run, 4 + after)).toBeCloseTo(Z80 * Math.sqrt(variance + ownHour), 12);
    }
    expect(half(run, 3)).toBe(1);
  });

  it('teaches a doubt: what it does at another hour follows from what it did at this one', () => {
    const effectK = [0, 1, 2, 0.5, -1];
    const shift = (sign: number) => ({
      surfaceK: effectK.map((k) => sign * k),
      meanK: effectK.map((k) => (sign * k) / 2),
    });
    const floorK = 1e-6;
    const { run } = correctByReadings(
      handmade(5, { floorK, doubts: [{ less: shift(-1), more: shift(1) }] }),
      [taken(2, 11.5)],
    );
    const variance = 1 / Z80 ** 2;
    const doubt = (2 * variance * 1.5) / (4 * variance + 0.25);
    for (const i of [2, 3, 4]) {
      expect(surface(run, i) - 10).toBeCloseTo((effectK[i] ?? NaN) * doubt, 6);
      expect((run.hours[i]?.meanC ?? NaN) - 10).toBeCloseTo(((effectK[i] ?? NaN) / 2) * doubt, 6);
    }
    expect(surface(run, 1)).toBe(10);
  });

  it('counts for less with less weight, and is judged by its own error', () => {
    const { run } = correctByReadings(handmade(5), [taken(2, 11, { weight: 0.25 })]);
    expect(surface(run, 2) - 10).toBeCloseTo((lasting + fading) / (lasting + fading + noise / 0.25), 12);
    const wild = correctByReadings(handmade(5), [taken(2, 15, { weight: 0.01 })]);
    expect(wild.refused).toHaveLength(1);
  });
});

describe('readings of one hour', () => {
  it('share the thermometer and the spot: together they say what one of their mean says', () => {
    const minutes = [50, 30, 20, 5].map((before, i) =>
      taken(4, 10.7 + 0.2 * i, { atMs: START_MS + 5 * HOUR - before * 60_000 }),
    );
    const many = correctByReadings(handmade(8), minutes).run;
    const one = correctByReadings(handmade(8), [taken(4, 11)]).run;
    for (const i of [3, 4, 7]) {
      expect(surface(many, i)).toBeCloseTo(surface(one, i), 12);
      expect(half(many, i)).toBeCloseTo(half(one, i), 12);
    }
  });
});

describe('what a pocket keeps of a misfit', () => {
  it('is what a real difference between two runs does in a closed, stirred pocket', () => {
    const closed = { ...BACK, watershedKm2: 0, mouthWidthM: 0, meanDepthM: 1.2 };
    const weather = (lakeC: number): PocketHour[] =>
      spell({ lakeC, rainIn: 0, days: 3 }).map((hour) => ({ ...hour, windMs: 7 }));
    const [warmer, colder] = [9, 8].map((lakeC) =>
      simulatePocket(closed, weather(lakeC), { basis: 'configured' }),
    );
    let kept = 1;
    for (const [i, hour] of warmer!.hours.entries()) {
      kept *= warmer!.error.keep[i] ?? NaN;
      if (i % 12 === 11) expect(hour.meanC - (colder!.hours[i]?.meanC ?? NaN)).toBeCloseTo(kept, 1);
    }
    expect(kept).toBeLessThan(0.6);
  });

  it.each([
    ['open', OPEN],
    ['back of a creek', BACK],
    ['draw', DRAW],
    ['narrow-mouthed', { ...OPEN, mouthWidthM: 8 }],
  ] as const)(
    'is near what a real difference does in the %s pocket, though the flows differ too',
    (_, shape) => {
      for (const rainIn of [0, 1.5]) {
        const hours = spell({ days: 3, rainIn });
        // The run starts at the lake's temperature: a lake half a kelvin warmer in the first hour alone is the difference.
        const [plain, other] = [0, 0.5].map((warmerK) =>
          simulatePocket(
            shape,
            hours.map((hour, i) => (i === 0 ? { ...hour, lakeC: hour.lakeC + warmerK } : hour)),
            { basis: 'configured', antecedent5dRainMm: 45 },
          ),
        );
        const differenceK = (i: number): number =>
          (other!.hours[i]?.meanC ?? NaN) - (plain!.hours[i]?.meanC ?? NaN);
        for (const i of [6, 12, 24, 48]) {
          const kept = plain!.error.keep.slice(1, i + 1).reduce((product, keep) => product * keep, 1);
          expect(Math.abs(differenceK(i) / differenceK(0) - kept)).toBeLessThan(0.12);
        }
      }
    },
  );

  it('is less behind a wide mouth, in a shallow pocket and while a storm runs through', () => {
    const day = (shape: PocketShape, rainIn = 0): number =>
      simulatePocket(shape, spell({ rainIn }), { basis: 'configured', antecedent5dRainMm: 45 })
        .error.keep.slice(24, 48)
        .reduce((product, keep) => product * keep, 1);
    expect(day({ ...OPEN, mouthWidthM: 150 })).toBeLessThan(day(OPEN));
    expect(day({ ...OPEN, meanDepthM: 0.8 })).toBeLessThan(day(OPEN));
    expect(day(BACK, 1.5)).toBeLessThan(0.5 * day(BACK));
  });
});

/** A second run stands for the truth; its pocket differs in what nobody knows of a pocket (identical twins). */
describe('a pocket that is not as it was configured', () => {
  const hours = spell({ days: 10, rainIn: 0.8 });
  const truths: [string, PocketShape, Partial<PocketShape>][] = [
    ['twice as wide a mouth', OPEN, { mouthWidthM: 120 }],
    ['half the depth', OPEN, { meanDepthM: 0.76 }],
    ['half as deep again', DRAW, { meanDepthM: 1.5 }],
    ['a tenth of the mouth', BACK, { mouthWidthM: 3 }],
  ];

  it.each(truths)(
    '%s: four readings at noon take away two fifths of the error of the days after, or more',
    (_, shape, other) => {
      const options = { antecedent5dRainMm: 45, basis: 'class' } as const;
      const model = simulatePocket(shape, hours, options);
      const truth = simulatePocket({ ...shape, ...other }, hours, options);
      const noons = [2, 3, 4, 5].map((day) => 24 * day + 12);
      const readings = noons.map((i) => ({
        atMs: truth.hours[i]!.atMs,
        waterC: truth.hours[i]!.surfaceC,
        depthM: 0.2,
        sdC: 0.3,
      }));
      const { run, used } = correctByReadings(model, readings);
      expect(used).toHaveLength(4);
      const error = (of: PocketRun): number => {
        const later = of.hours.slice(24 * 6);
        const square = later.reduce(
          (sum, hour, i) => sum + (hour.surfaceC - (truth.hours[24 * 6 + i]?.surfaceC ?? NaN)) ** 2,
          0,
        );
        return Math.sqrt(square / later.length);
      };
      expect(error(model)).toBeGreaterThan(0.1);
      expect(error(run)).toBeLessThan(0.6 * error(model));
    },
  );
});

describe('the depth of the thermometer', () => {
  const hours = spell({ rainIn: 0, afterC: 15 });
  const run = simulatePocket({ ...OPEN, mouthWidthM: 20 }, hours, { basis: 'configured' });
  const i = 24 * 3 + 14;
  const { surfaceC, meanC, atMs } = run.hours[i]!;
  const lowerC = (meanC - 0.4 * surfaceC) / 0.6;
  const moved = (waterC: number, depthM: number): number => {
    const got = correctByReadings(run, [{ atMs, waterC, depthM, sdC: 0.3 }]);
    expect(got.refused).toEqual([]);
    return surface(got.run, i) - surfaceC;
  };

  it('decides which layer a reading speaks of', () => {
    expect(surfaceC - lowerC).toBeGreaterThan(0.5);
    expect(moved(surfaceC, 0.2)).toBeCloseTo(0, 9);
    expect(moved(lowerC, 1.5)).toBeCloseTo(0, 9);
    expect(moved(lowerC, 4)).toBeCloseTo(0, 9);
    // Half-way between the middles of the layers: 0.45 of 1.52 m.
    expect(moved((surfaceC + lowerC) / 2, 0.45 * 1.52)).toBeCloseTo(0, 9);
    expect(moved(lowerC, 0.2)).toBeLessThan(-0.1);
  });
});

describe('a reading that cannot be right', () => {
  it('is refused with a reason and moves nothing', () => {
    const plain = handmade(10);
    for (const [waterC, reason] of [
      [19, { code: 'tooFar', differenceC: 9, of: 'pocket', fate: 'leftOut' }],
      [4, { code: 'tooFar', differenceC: -6, of: 'pocket', fate: 'leftOut' }],
      [47, { code: 'notWater', waterC: 47, water: 'lake' }],
    ] as const) {
      const got = correctByReadings(plain, [taken(3, waterC)]);
      expect(got.run).toBe(plain);
      expect(got.used).toHaveLength(0);
      expect(got.refused[0]?.reason).toEqual(reason);
      expect(got.refused[0]?.kind).toBe('improbable');
    }
  });

  it('is believed when a second one agrees with it within days, and then with care', () => {
    const got = correctByReadings(handmade(60), [taken(3, 16), taken(30, 15.5)]);
    expect(got.used.map(({ waterC }) => waterC)).toEqual([15.5]);
    expect(surface(got.run, 29)).toBe(10);
    expect(surface(got.run, 30)).toBeGreaterThan(12);
    expect(surface(got.run, 30)).toBeLessThan(15.5);
  });

  it('beyond eight kelvins even where the class is so coarse that five standard errors are more', () => {
    const got = correctByReadings(handmade(10, { floorK: 4 }), [taken(3, 18.5)]);
    expect(got.refused).toHaveLength(1);
    expect(correctByReadings(handmade(10, { floorK: 4 }), [taken(3, 17.5)]).refused).toHaveLength(0);
  });

  it('from outside the weather that is known says so, and is not called improbable', () => {
    const got = correctByReadings(handmade(10), [taken(-1, 10), taken(10, 10)]);
    expect(got.refused.map(({ kind }) => kind)).toEqual(['incomparable', 'incomparable']);
    expect(got.refused.map(({ reason }) => reason.code)).toEqual(['beforeTheWeather', 'noWeatherThatHour']);
  });

  it('names the field that is wrong', () => {
    expect(() => correctByReadings(handmade(3), [taken(1, 10, { sdC: 0 })])).toThrow(/sdC/);
    expect(() => correctByReadings(handmade(3), [taken(1, 10, { depthM: -1 })])).toThrow(/depthM/);
    expect(() => correctByReadings(handmade(3), [taken(1, 10, { weight: 0 })])).toThrow(/weight/);
    expect(() => correctByReadings(handmade(3), [taken(1, NaN)])).toThrow(/temperature/);
  });
});
