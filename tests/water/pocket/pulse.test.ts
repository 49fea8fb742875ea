/** What a storm is said to have done: when its rain has fallen, how long its warmth lasts, and what may be asked. */
import { describe, expect, it } from 'vitest';
import { classPocket, simulatePocket } from '../../../src/water/pocket/index.ts';
import { BACK, OPEN, RAIN_FROM, RAIN_TO, spell } from './weather.ts';

const WET = { basis: 'configured', antecedent5dRainMm: 45, soilC: 12.5 } as const;
const hours = spell({ rainIn: 1.5, days: 5 });

describe('rain', () => {
  const effects = (asOfMs: number) =>
    simulatePocket(OPEN, hours.slice(0, 48), { ...WET, stepsPerHour: 3, asOfMs }).effects;

  it('has fallen with the hour that ends at the instant, and lies ahead with the next', () => {
    const [firstRain, lastRain] = [hours[RAIN_FROM]!.atMs, hours[RAIN_TO - 1]!.atMs];
    expect(effects(firstRain - 1).rainFallen).toBeNull();
    expect(effects(firstRain).rainFallen).not.toBeNull();
    expect(effects(lastRain - 1).rainAhead).not.toBeNull();
    expect(effects(lastRain).rainAhead).toBeNull();
  });

  it('fallen and ahead add up to what all of it does', () => {
    const split = effects(hours[RAIN_FROM + 5]!.atMs);
    const whole = effects(hours[47]!.atMs);
    for (const of of ['surfaceK', 'meanK'] as const)
      split.rainFallen![of].forEach((kelvin, i) =>
        expect(kelvin + split.rainAhead![of][i]!).toBeCloseTo(whole.rainFallen![of][i]!, 9),
      );
    expect(split.rainAhead!.meanK[46]).toBeGreaterThan(0);
    expect(split.rainFallen!.meanK[46]).toBeGreaterThan(0);
  });

  it('that never fell leaves nothing to tell', () => {
    const dry = simulatePocket(OPEN, spell({ days: 2 }), WET);
    expect([dry.effects.rainFallen, dry.effects.rainAhead, dry.halfLifeH, dry.buoyancy]).toEqual([
      null,
      null,
      null,
      null,
    ]);
    expect(dry.effects.baseFlow).not.toBeNull();
    expect(dry.effects).not.toHaveProperty('shade');
  });
});

describe('the half-life of a pulse', () => {
  const narrow = { ...OPEN, mouthWidthM: 8 };
  const halfLife = (shape: typeof OPEN, upTo: number, more: { asOfMs?: number } = {}) =>
    simulatePocket(shape, hours.slice(0, upTo), { ...WET, ...more }).halfLifeH;

  it('is read from the effect itself: hours from its top to half of it', () => {
    const run = simulatePocket(OPEN, hours, WET);
    const effect = run.effects.rainFallen!.meanK;
    const top = Math.max(...effect);
    const peak = effect.indexOf(top);
    const after = peak + Math.floor(run.halfLifeH!);
    expect(effect[after]).toBeGreaterThanOrEqual(top / 2);
    expect(effect[after + 1]).toBeLessThanOrEqual(top / 2);
  });

  it('is foretold by the decay so far where the hours end before it, and by nothing before a fifth of it is seen', () => {
    const whole = halfLife(narrow, 120)!;
    const run = simulatePocket(narrow, hours, WET);
    const effect = run.effects.rainFallen!.meanK;
    const top = Math.max(...effect);
    const peak = effect.indexOf(top);
    const fifth = effect.findIndex((kelvin, i) => i > peak && kelvin < 0.8 * top);
    expect(halfLife(narrow, fifth)).toBeNull();
    const foretold = halfLife(narrow, fifth + 4)!;
    expect(foretold / whole).toBeGreaterThan(0.6);
    expect(foretold / whole).toBeLessThan(1.6);
    // By its own decay: an exponential through top and end.
    const end = fifth + 3;
    expect(foretold).toBeCloseTo(((end - peak) * Math.LN2) / Math.log(top / effect[end]!), 1);
  });

  it('is told while the pulse still matters, though the rain is three days past', () => {
    const still = { asOfMs: hours[RAIN_TO + 75]!.atMs };
    expect(
      simulatePocket(narrow, hours, { ...WET, ...still }).hours[RAIN_TO + 75]!.meanMinusMainC,
    ).toBeGreaterThan(0.3);
    expect(halfLife(narrow, 120, still)).not.toBeNull();
  });

  it('is not told of a storm that is over three days past', () => {
    const asOf = (hour: number) => ({ asOfMs: hours[hour]!.atMs });
    const long = spell({ rainIn: 1.5, days: 8 });
    const at = (hour: number) =>
      simulatePocket(OPEN, long, { ...WET, stepsPerHour: 3, asOfMs: long[hour]!.atMs });
    expect(halfLife(OPEN, 120, asOf(RAIN_TO))).not.toBeNull();
    expect(at(RAIN_TO).buoyancy).not.toBeNull();
    expect(at(RAIN_TO + 24).buoyancy).toBeCloseTo(at(RAIN_TO + 60).buoyancy!, 1);
    expect(at(RAIN_TO + 120).buoyancy).toBeNull();
  });
});

it('an hour that ends at the instant is past, to the millisecond', () => {
  const storm = hours.slice(0, 42);
  for (let i = RAIN_FROM; i < 42; i++) {
    const told = (asOfMs: number) => {
      const { buoyancy, halfLifeH, effects } = simulatePocket(OPEN, storm, {
        ...WET,
        stepsPerHour: 1,
        asOfMs,
      });
      return { buoyancy, halfLifeH, effects };
    };
    expect(told(storm[i]!.atMs)).toEqual(told(storm[i]!.atMs + 1));
  }
});

describe('what may be asked of a pocket', () => {
  const day = hours.slice(0, 24);
  const asked =
    (more: { stepsPerHour?: number }, own = day) =>
    () =>
      simulatePocket(BACK, own, { ...WET, ...more });

  it('is 1 to 3600 whole steps an hour', () => {
    expect(asked({ stepsPerHour: 1 })).not.toThrow();
    expect(asked({ stepsPerHour: 3600 }, day.slice(0, 1))).not.toThrow();
    for (const stepsPerHour of [0, -1, 1.5, 3601, Number.NaN])
      expect(asked({ stepsPerHour })).toThrow(/whole number from 1 to 3600/);
  });

  it('is hours in order, an hour apart', () => {
    expect(asked({}, [day[0]!])).not.toThrow();
    expect(asked({}, [day[1]!, day[0]!])).toThrow('hour 1 does not follow the one before by one hour');
    expect(asked({}, [day[0]!, day[0]!])).toThrow(/hour 1/);
    expect(asked({}, [])).toThrow(/at least one hour/);
  });

  it('is water between -2 and 45 degC, rain of 0 or more', () => {
    const lake = (lakeC: number) => asked({}, [{ ...day[0]!, lakeC }]);
    for (const lakeC of [-1.99, 44.99]) expect(lake(lakeC)).not.toThrow();
    for (const lakeC of [-2, 45, Number.NaN]) expect(lake(lakeC)).toThrow(/lakeC of hour 0/);
    for (const rainMm of [-0.1, Number.NaN])
      expect(asked({}, [{ ...day[0]!, rainMm }])).toThrow(/rainMm of hour 0/);
  });

  it('is a pocket with water and land, which may have no watershed and no mouth', () => {
    const shaped = (more: Partial<typeof BACK>) => () => simulatePocket({ ...BACK, ...more }, day, WET);
    for (const key of ['areaM2', 'meanDepthM', 'channelLengthM', 'slope'] as const)
      for (const value of [0, -1, Number.NaN])
        expect(shaped({ [key]: value })).toThrow(`${key} of a pocket must be above 0`);
    for (const key of ['watershedKm2', 'mouthWidthM'] as const) {
      expect(shaped({ [key]: 0 })).not.toThrow();
      for (const value of [-1, Number.NaN])
        expect(shaped({ [key]: value })).toThrow(`${key} of a pocket must be 0 or more`);
    }
  });
});

describe('the class of a pocket that nobody measured', () => {
  it('has the depth of its bank: a twelfth of its width by the slope, between 0.8 and 4 m', () => {
    // A square of 40,000 m2 is 200 m wide: 200 / 12 * tan 8 degrees = 2.34 m.
    expect(classPocket('medium').meanDepthM).toBeCloseTo(2.342, 3);
    expect(classPocket('medium', undefined, 45).meanDepthM).toBe(4);
    expect(classPocket('small', undefined, 2).meanDepthM).toBe(0.8);
    expect(classPocket('medium', 1.1)).toMatchObject({ meanDepthM: 1.1, latDeg: 36, landCover: 'mixed' });
    expect(classPocket('small', undefined, 8, 44).latDeg).toBe(44);
  });

  it('is smaller in everything where it is small', () => {
    const [small, medium] = [classPocket('small', 1), classPocket('medium', 1)];
    for (const key of ['areaM2', 'watershedKm2', 'mouthWidthM', 'channelLengthM'] as const)
      expect(small[key]).toBeLessThan(medium[key]);
    expect(simulatePocket(small, spell({ days: 1 }), { basis: 'class' }).books.volumeM3).toBe(6000);
  });
});
