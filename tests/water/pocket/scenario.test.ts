import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import {
  classPocket,
  simulatePocket,
  type PocketHour,
  type PocketRun,
  type PocketShape,
} from '../../../src/water/pocket/index.ts';
import { BACK, DRAW, HOUR, OPEN, RAIN_FROM, RAIN_TO, spell, toF } from './weather.ts';

interface Reference {
  readonly pockets: readonly { readonly id: string; readonly surfaceF: number; readonly meanF: number }[];
  readonly halfLifeH: readonly [number, number];
}
const reference = JSON.parse(
  readFileSync(new URL('../../../fixtures/science/pocket-scenario.json', import.meta.url), 'utf8'),
) as Reference;
const expected = (id: string): { surfaceF: number; meanF: number } => {
  const found = reference.pockets.find((p) => p.id === id);
  if (!found) throw new Error(`no reference for ${id}`);
  return found;
};

/** Wet winter ground, so that 0.4 of the rain runs off, over soil at 12.5 degC, so that it arrives near 56 F. */
const WET = { basis: 'configured', antecedent5dRainMm: 45, soilC: 12.5 } as const;
const run = (shape: PocketShape, hours: readonly PocketHour[]): PocketRun =>
  simulatePocket(shape, hours, WET);
/** Warmest surface and mean of the day the rain ends. */
const peak = (r: PocketRun): { surfaceF: number; meanF: number } => ({
  surfaceF: toF(Math.max(...r.hours.slice(RAIN_FROM, RAIN_FROM + 24).map((h) => h.surfaceC))),
  meanF: toF(Math.max(...r.hours.slice(RAIN_FROM, RAIN_FROM + 24).map((h) => h.meanC))),
});

const spellWithoutRain = (hours: readonly PocketHour[]): PocketHour[] =>
  hours.map((hour) => ({ ...hour, rainMm: 0 }));

describe('an inch and a half of rain at 58 F on a 47 F lake', () => {
  const hours = spell({ rainIn: 1.5 });
  const open = run(OPEN, hours);
  const back = run(BACK, hours);
  const draw = run(DRAW, hours);

  it('sheds about 0.4 of itself at about 56 F', () => {
    expect(open.runoffMm / 38.1).toBeGreaterThan(0.36);
    expect(open.runoffMm / 38.1).toBeLessThan(0.44);
    const inflowF = toF(back.hours[RAIN_TO - 2]?.inflowC ?? NaN);
    expect(inflowF).toBeGreaterThan(55);
    expect(inflowF).toBeLessThan(57.5);
  });

  it('warms the creek back most, the open pocket less, the dry draw least', () => {
    expect(peak(back).surfaceF).toBeGreaterThan(peak(open).surfaceF + 0.8);
    expect(peak(open).surfaceF).toBeGreaterThan(peak(draw).surfaceF + 0.8);
    expect(peak(back).meanF).toBeGreaterThan(peak(open).meanF);
    expect(peak(open).meanF).toBeGreaterThan(peak(draw).meanF);
  });

  it('comes out within a degree and a half Fahrenheit of the reference at the surface, two in the mean', () => {
    const drawOneInch = run(DRAW, spell({ rainIn: 1 }));
    for (const [id, got] of [
      ['open', open],
      ['back', back],
      ['draw', drawOneInch],
    ] as const) {
      expect(Math.abs(peak(got).surfaceF - expected(id).surfaceF), id).toBeLessThan(1.5);
      expect(Math.abs(peak(got).meanF - expected(id).meanF), id).toBeLessThan(2);
    }
  });

  it('leaves the open pocket’s excess halved after about a day, sooner behind a wide mouth, later behind a narrow one', () => {
    const [low, high] = reference.halfLifeH;
    expect(open.halfLifeH).toBeGreaterThan(low - 2);
    expect(open.halfLifeH).toBeLessThan(high + 2);
    expect(run({ ...OPEN, mouthWidthM: 150 }, hours).halfLifeH).toBeLessThan(15);
    expect(run({ ...OPEN, mouthWidthM: 8 }, hours).halfLifeH).toBeGreaterThan(high);
  });

  it('floats on the colder lake and renews the back several times over, the draw in part', () => {
    expect(back.buoyancy).toBeGreaterThan(0.9);
    const [from, to] = [hours[0]!.atMs - HOUR, hours.at(-1)!.atMs];
    expect(back.renewedShare(from, to)).toBe(1);
    expect(draw.renewedShare(from, to)).toBeGreaterThan(0.4);
    expect(draw.renewedShare(from, to)).toBeLessThan(0.9);
    expect(back.renewedShare(from, from + RAIN_FROM * HOUR)).toBe(0);
  });
});

describe('the storm that has fallen', () => {
  // Cold rain on Thursday, clear warm rain forecast for Sunday: what is asked is what Thursday's did.
  const past = spell({ rainIn: 1.5, rainAirC: 4, beforeC: 6, afterC: 8, days: 4 });
  const ahead = spell({ rainIn: 2, rainAirC: 16, days: 4 }).map((h, i) => ({
    ...h,
    atMs: past.at(-1)!.atMs + (i + 1) * HOUR,
  }));
  const asOfMs = past[0]!.atMs + 47 * HOUR;
  const options = { basis: 'configured', antecedent5dRainMm: 45, sedimentMgL: 0 } as const;

  it('gives buoyancy and half-life, not the one that is only forecast', () => {
    const alone = simulatePocket(OPEN, past, { ...options, asOfMs });
    const both = simulatePocket(OPEN, [...past, ...ahead], { ...options, asOfMs });
    expect(alone.buoyancy).toBeLessThan(-0.5);
    expect(both.buoyancy).toBe(alone.buoyancy);
    expect(both.halfLifeH).toBeCloseTo(alone.halfLifeH ?? NaN, 6);
    expect(simulatePocket(OPEN, [...past, ...ahead], options).buoyancy).toBeGreaterThan(0);
  });

  it('is forgotten after three days', () => {
    const later = simulatePocket(OPEN, [...past, ...ahead], { ...options, asOfMs: asOfMs + 200 * HOUR });
    expect(later.buoyancy).toBeNull();
    const before = simulatePocket(OPEN, ahead, { ...options, asOfMs: ahead[20]!.atMs });
    expect(before.buoyancy).toBeNull();
    expect(before.halfLifeH).toBeNull();
  });
});

describe('what a storm did', () => {
  const hours = spell({ rainIn: 1.5 });
  const asOfMs = hours[RAIN_TO + 6]!.atMs;
  /** Differences of two runs of the caller's own, at the steps that the model takes for such differences. */
  const between = (a: PocketRun, b: PocketRun): number[] =>
    a.hours.map(({ surfaceC }, i) => surfaceC - b.hours[i]!.surfaceC);

  it('is the run with it minus the run without, and the greater part of a pulse', () => {
    const coarse = { ...WET, stepsPerHour: 4 };
    const { effects, hours: states } = run(OPEN, hours);
    const own = between(
      simulatePocket(OPEN, hours, coarse),
      simulatePocket(OPEN, spellWithoutRain(hours), coarse),
    );
    for (const [i, kelvin] of own.entries()) expect(effects.rainFallen?.surfaceK[i]).toBeCloseTo(kelvin, 9);
    expect(effects.rainFallen!.surfaceK[RAIN_TO]! / states[RAIN_TO]!.minusMainC).toBeGreaterThan(0.5);
    expect(effects.rainAhead).toBeNull();
  });

  it('is kept apart from rain that is only forecast, and from the stream between storms', () => {
    const ahead = simulatePocket(OPEN, hours, { ...WET, asOfMs: hours[RAIN_FROM - 1]!.atMs }).effects;
    expect(ahead.rainFallen).toBeNull();
    expect(ahead.rainAhead!.surfaceK[RAIN_FROM - 1]).toBe(0);
    expect(ahead.rainAhead!.surfaceK[RAIN_TO]).toBeGreaterThan(1);
    const past = simulatePocket(OPEN, hours, { ...WET, asOfMs }).effects;
    expect(past.rainFallen?.surfaceK).toEqual(ahead.rainAhead?.surfaceK);
    expect(past.baseFlow).not.toBeNull();
    // A draw of a quarter of a square kilometre is dry between storms.
    expect(run(DRAW, hours).effects.baseFlow).toBeNull();
  });

  it('is measured by the rain between two instants, snow left out', () => {
    const [from, to] = [hours[0]!.atMs - HOUR, hours.at(-1)!.atMs];
    expect(run(OPEN, hours).rainBetweenMm(from, to)).toBeCloseTo(38.1, 6);
    expect(run(OPEN, hours).rainBetweenMm(from, from + RAIN_FROM * HOUR)).toBe(0);
    const snow = spell({ rainIn: 2, rainAirC: -1, beforeC: 1 });
    expect(run(OPEN, snow).rainBetweenMm(from, to)).toBe(0);
  });
});

describe('the pocket says no', () => {
  it('to a quarter inch of rain: no runoff, and the pocket stays as it would have been', () => {
    const wet = simulatePocket(BACK, spell({ rainIn: 0.25 }), { basis: 'configured' });
    const dry = simulatePocket(BACK, spell({ rainIn: 0 }), { basis: 'configured' });
    expect(wet.runoffMm).toBe(0);
    expect(wet.halfLifeH).toBeNull();
    for (const [i, hour] of wet.hours.entries()) {
      expect(Math.abs(hour.surfaceC - (dry.hours[i]?.surfaceC ?? NaN))).toBeLessThan(0.1);
    }
  });

  it('to a small wooded inflow in March and April: it runs in colder than the lake and does not float', () => {
    // A lake that the sun has warmed past the mean of the air; rain falls in the cooler spells (April, 36 N).
    const hours = spell({
      startIso: '2026-04-02T06:00Z',
      lakeC: 13.5,
      rainIn: 1.6,
      rainAirC: 11,
      beforeC: 11,
      afterC: 11,
    });
    const wooded = { ...BACK, landCover: 'wooded' as const, watershedKm2: 0.8 };
    const got = simulatePocket(wooded, hours, { basis: 'configured', antecedent5dRainMm: 60 });
    expect(got.runoffMm).toBeGreaterThan(3);
    expect(got.buoyancy).toBeLessThan(-0.9);
    for (const hour of got.hours) expect(hour.inflowC ?? 0).toBeLessThan(13.5);
    const during = got.hours.slice(RAIN_FROM + 6, RAIN_TO);
    for (const hour of during) expect(hour.meanMinusMainC).toBeLessThan(0);
  });

  it('after a clear, cold, windy night: the pulse is gone by the dawn after it, and the next day it is colder', () => {
    const mild = run(OPEN, spell({ rainIn: 1.5, cloudAfterPct: 90, humidityAfterPct: 90 }));
    const cold = run(
      OPEN,
      spell({ rainIn: 1.5, afterC: 0, windAfterMs: 6, cloudAfterPct: 0, humidityAfterPct: 55 }),
    );
    const dawnAfter = 24 * 2 + 6;
    expect(mild.hours[dawnAfter]!.minusMainC).toBeGreaterThan(1);
    expect(cold.hours[dawnAfter]!.minusMainC).toBeLessThan(0.3);
    expect(cold.hours[dawnAfter + 24]!.minusMainC).toBeLessThan(-0.5);
  });

  it('to very muddy warm water: it sinks, and the surface stays colder than with clear runoff', () => {
    const clear = simulatePocket(OPEN, spell({ rainIn: 1.5 }), { ...WET, sedimentMgL: 20 });
    const muddy = simulatePocket(OPEN, spell({ rainIn: 1.5 }), { ...WET, sedimentMgL: 1500 });
    expect(clear.buoyancy).toBeGreaterThan(0.9);
    expect(muddy.buoyancy).toBeLessThan(-0.9);
    expect(peak(muddy).surfaceF).toBeLessThan(peak(clear).surfaceF - 1.5);
    const end = RAIN_TO - 1;
    expect(muddy.hours[end]!.meanC).toBeGreaterThan(muddy.hours[end]!.surfaceC);
  });

  it('to cold rain: the pocket ends colder than the lake', () => {
    const cold = simulatePocket(OPEN, spell({ rainIn: 1.5, rainAirC: 5, beforeC: 6, afterC: 6 }), {
      basis: 'configured',
      antecedent5dRainMm: 45,
    });
    expect(cold.hours[RAIN_TO]!.minusMainC).toBeLessThan(-0.2);
  });

  it('to rain that falls as snow: nothing runs off', () => {
    const snow = simulatePocket(BACK, spell({ rainIn: 2, rainAirC: -1, beforeC: 1 }), WET);
    expect(snow.runoffMm).toBe(0);
  });
});

describe('sun without rain', () => {
  it('warms a shallow pocket by several degrees by the afternoon, and it keeps a little of it at dawn', () => {
    const hours = spell({ rainIn: 0, afterC: 15 });
    const shallow = run({ ...OPEN, meanDepthM: 0.8 }, hours);
    const deep = run({ ...OPEN, meanDepthM: 3 }, hours);
    const afternoon = 24 * 3 + 15;
    const dawn = 24 * 4 + 5;
    expect(shallow.hours[afternoon]!.minusMainC).toBeGreaterThan(2.5);
    expect(shallow.hours[dawn]!.minusMainC).toBeGreaterThan(0.5);
    expect(shallow.hours[dawn]!.minusMainC).toBeLessThan(shallow.hours[afternoon]!.minusMainC);
    expect(deep.hours[afternoon]!.minusMainC).toBeLessThan(shallow.hours[afternoon]!.minusMainC);
    expect(shallow.buoyancy).toBeNull();
    expect(shallow.halfLifeH).toBeNull();
  });
});

describe('a pocket that nobody configured', () => {
  it('has a class shape by size and bank, and a wider interval than a configured one', () => {
    expect(classPocket('small').areaM2).toBeLessThan(classPocket('medium').areaM2);
    expect(classPocket('medium', undefined, 20).meanDepthM).toBeGreaterThan(
      classPocket('medium', undefined, 4).meanDepthM,
    );
    expect(classPocket('small', 2.2).meanDepthM).toBe(2.2);
    const hours = spell({ rainIn: 1.5 });
    const coarse = simulatePocket(BACK, hours, { ...WET, basis: 'class' });
    const known = simulatePocket(BACK, hours, WET);
    for (const [i, hour] of coarse.hours.entries()) {
      const tight = known.hours[i]!;
      expect(hour.surfaceC).toBe(tight.surfaceC);
      expect(hour.highC - hour.lowC).toBeGreaterThan(1.5 * (tight.highC - tight.lowC));
    }
  });
});

describe('what the caller gets wrong', () => {
  it('is refused with the field’s name', () => {
    const hours = spell();
    expect(() => simulatePocket({ ...BACK, areaM2: 0 }, hours, WET)).toThrow(
      /areaM2 of a pocket must be above 0/,
    );
    expect(() => simulatePocket(BACK, [], WET)).toThrow(/at least one hour/);
    expect(() => simulatePocket(BACK, [hours[0]!, hours[2]!], WET)).toThrow(/does not follow/);
    expect(() => simulatePocket(BACK, [{ ...hours[0]!, rainMm: -1 }], WET)).toThrow(/rainMm/);
    expect(() => simulatePocket(BACK, [{ ...hours[0]!, lakeC: 47.0 }], WET)).toThrow(/lakeC/);
    expect(() => simulatePocket(BACK, hours, { ...WET, stepsPerHour: 0.5 })).toThrow(/stepsPerHour/);
  });
});
