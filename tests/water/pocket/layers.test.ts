/** The two layers of a pocket by themselves, each process alone against its closed form. */
import { describe, expect, it } from 'vitest';
import { WATER_HEAT_CAPACITY } from '../../../src/science/index.ts';
import type { Inflow } from '../../../src/water/pocket/inflow.ts';
import { runLayers, skyOver, UPPER_SHARE, type LayerRun } from '../../../src/water/pocket/layers.ts';
import type { PocketHour, PocketShape } from '../../../src/water/pocket/index.ts';
import { BACK, HOUR } from './weather.ts';
import { emptyBooks } from './handmade.ts';

/** Nothing runs in or out; moist still air of the water's own warmth hardly takes heat. */
const CLOSED: PocketShape = { ...BACK, areaM2: 10_000, meanDepthM: 2, watershedKm2: 0, mouthWidthM: 0 };
const still = (count: number, more: Partial<PocketHour> = {}): PocketHour[] =>
  Array.from({ length: count }, (_, i) => ({
    atMs: (i + 1) * HOUR,
    airC: 24,
    humidityPct: 100,
    rainMm: 0,
    windMs: 0,
    shortwaveWm2: 0,
    cloudPct: 100,
    lakeC: 20,
    ...more,
  }));
const none = (count: number): Inflow => {
  const each = new Array<number>(count).fill(0);
  return {
    stormM3: each,
    baseM3: each,
    streamC: each,
    sedimentMgL: each,
    rainM3: each,
    rainC: each,
    excessMm: each,
  };
};
interface Start {
  readonly upperC: number;
  readonly lowerC: number;
  readonly upperLoad: number;
  readonly lowerLoad: number;
}
const EVEN: Start = { upperC: 20, lowerC: 20, upperLoad: 0, lowerLoad: 0 };
/** The run from a state at the end of the first hour on. */
function from(
  start: Partial<Start>,
  shape: PocketShape,
  hours: readonly PocketHour[],
  more: { inflow?: Partial<Inflow>; stepsPerHour?: number } = {},
): LayerRun {
  const state = { ...EVEN, ...start };
  const n = hours.length;
  const books = emptyBooks();
  const run: LayerRun = {
    surfaceC: [state.upperC],
    meanC: [state.lowerC],
    floating: [0],
    keep: [1],
    states: [state],
    books,
  };
  const options = { stepsPerHour: more.stepsPerHour ?? 60, mouthFactor: 1, sunFactor: 1 };
  return runLayers(shape, skyOver(shape, hours), { ...none(n), ...more.inflow }, options, { run, hour: 1 });
}
const last = (run: LayerRun) => run.states.at(-1)!;

describe('silt in a pocket', () => {
  // A still layer of depth h loses silt as exp(-w t / h), w the fall of 4 micrometres by Stokes's law; a chain of two as
  // Bateman (1910). w from g d2 (2650 - 1000) / (18 nu), nu = 1.2e-6 m2/s at 13 degC: 1.2e-5 m/s.
  const fallMs = (9.81 * 4e-6 ** 2 * 1.65) / (18 * 1.2e-6);

  it('settles as Stokes says: out of the upper layer into the lower one, and from there to the bottom', () => {
    const hours = still(25);
    const run = from({ upperC: 22, upperLoad: 120 }, CLOSED, hours);
    const [upperM, lowerM] = [UPPER_SHARE * 2, (1 - UPPER_SHARE) * 2];
    const [outOfUpper, outOfLower] = [fallMs / upperM, fallMs / lowerM];
    for (const h of [4, 12, 24]) {
      const s = h * 3600;
      const upper = 120 * Math.exp(-outOfUpper * s);
      const lower =
        ((120 * outOfLower) / (outOfLower - outOfUpper)) *
        (Math.exp(-outOfUpper * s) - Math.exp(-outOfLower * s));
      expect(run.states[h]!.upperLoad / upper).toBeCloseTo(1, 1);
      expect(run.states[h]!.lowerLoad / lower).toBeCloseTo(1, 1);
    }
    const deep = last(from({ upperC: 22, lowerLoad: 90 }, CLOSED, hours));
    expect(deep.lowerLoad / (90 * Math.exp(-outOfLower * 24 * 3600))).toBeCloseTo(1, 1);
    expect(deep.upperLoad).toBeCloseTo(0, 9);
  });

  it('of a stream that runs on comes to what it brings less what settles: c Q / (Q + w A)', () => {
    const n = 600;
    const hourlyM3 = 500;
    const each = (value: number): number[] => new Array<number>(n).fill(value);
    const run = from({}, CLOSED, still(n, { windMs: 12 }), {
      inflow: { stormM3: each(hourlyM3), streamC: each(20), sedimentMgL: each(80) },
      stepsPerHour: 6,
    });
    const { upperLoad, lowerLoad } = last(run);
    const settledM3 = fallMs * CLOSED.areaM2 * 3600;
    expect(upperLoad / ((80 * hourlyM3) / (hourlyM3 + settledM3))).toBeCloseTo(1, 1);
    // Whatever the layers hold: what came in is what went out with the water and to the bottom.
    const meanLoad = UPPER_SHARE * upperLoad + (1 - UPPER_SHARE) * lowerLoad;
    expect(upperLoad).toBeLessThan(80);
    expect(Math.abs(upperLoad - lowerLoad)).toBeLessThan(0.2 * meanLoad);
  });

  it('is stirred through both layers by a wind, and stays where it is in calm warm water', () => {
    const after = (windMs: number): Start =>
      last(from({ upperLoad: 50, upperC: 20.5 }, CLOSED, still(13, { windMs })));
    expect(after(10).lowerLoad / after(10).upperLoad).toBeGreaterThan(0.8);
    expect(after(0).lowerLoad / after(0).upperLoad).toBeLessThan(0.6);
  });
});

describe('sunlight in a pocket', () => {
  /** Heat that the lower layer gains in an hour of calm midday sun, W/m2. */
  const reachesBelow = (meanDepthM: number, upperLoad = 0, shortwaveWm2 = 900): number => {
    const start = { upperC: 22, upperLoad };
    const { lowerC } = last(
      from(start, { ...CLOSED, meanDepthM }, still(2, { shortwaveWm2 }), { stepsPerHour: 240 }),
    );
    return ((lowerC - 20) * WATER_HEAT_CAPACITY * (1 - UPPER_SHARE) * meanDepthM) / 3600;
  };

  it('grows less by the same share with each metre (Beer and Lambert), in water of 1.2 m Secchi by 1.7 over it', () => {
    const [one, two, three] = [1, 2, 3].map((depthM) => reachesBelow(depthM));
    const perM = Math.log(one! / two!) / UPPER_SHARE;
    expect(Math.log(two! / three!) / UPPER_SHARE).toBeCloseTo(perM, 3);
    // Poole and Atkins (1929): attenuation is 1.7 over Secchi depth; from memory.
    expect(perM / (1.7 / 1.2)).toBeCloseTo(1, 1);
    // Of 900 W/m2 the surface throws back 7 % and the first centimetres keep 45 %.
    expect(one! * Math.exp(perM * UPPER_SHARE)).toBeCloseTo(900 * 0.93 * 0.55, -1);
    expect(reachesBelow(1, 0, 450)).toBeCloseTo(one! / 2, 3);
    expect(reachesBelow(1, 0, 0)).toBeCloseTo(0, 9);
  });

  it('is kept by muddy water above, by the same share for every load', () => {
    const [clear, muddy, muddier] = [0, 50, 100].map((load) => reachesBelow(1, load));
    expect(muddy! / clear!).toBeLessThan(0.75);
    expect(muddier! / muddy!).toBeCloseTo(muddy! / clear!, 1);
  });
});

describe('mixing in a pocket', () => {
  const contrast = (start: Partial<Start>, hours: readonly PocketHour[]): number => {
    const { upperC, lowerC } = last(from(start, CLOSED, hours));
    return upperC - lowerC;
  };

  it('leaves a warm layer on top in still air, and breaks it up in a gale', () => {
    const warm = { upperC: 23 };
    expect(contrast(warm, still(7))).toBeGreaterThan(2.5);
    expect(contrast(warm, still(7, { windMs: 5 }))).toBeLessThan(contrast(warm, still(7)));
    expect(contrast(warm, still(7, { windMs: 15 }))).toBeLessThan(0.5);
  });

  it('lets water that has cooled on top sink at once: no lasting layer of heavy water over light', () => {
    expect(Math.abs(contrast({ upperC: 17 }, still(2, { airC: 20 })))).toBeLessThan(0.3);
    // Muddy water weighs more too (1 g/l adds 0.62 kg/m3): it sinks under clear water of the same warmth.
    const { upperLoad, lowerLoad } = last(from({ upperLoad: 800 }, CLOSED, still(2)));
    expect(lowerLoad).toBeGreaterThan(0.5 * upperLoad);
  });

  it('is done by a cold clear night too, without any wind', () => {
    const start = { upperC: 20.6 };
    const night = still(9, { airC: 12, humidityPct: 50, cloudPct: 0 });
    expect(contrast(start, night)).toBeLessThan(0.2);
    const { upperC, lowerC } = last(from(start, CLOSED, night));
    expect(UPPER_SHARE * upperC + (1 - UPPER_SHARE) * lowerC).toBeLessThan(20);
    expect(lowerC).toBeLessThan(20);
  });

  it('below 4 degC runs the other way: colder water floats, and no cooling stirs it', () => {
    const cold = still(9, { airC: -5, humidityPct: 60, cloudPct: 0, lakeC: 2 });
    const { upperC, lowerC } = last(from({ upperC: 1.5, lowerC: 3 }, CLOSED, cold));
    expect(upperC).toBeLessThan(1.5);
    expect(lowerC).toBeGreaterThan(2.9);
  });
});

describe('the mouth of a pocket', () => {
  /** Water that the lake gives a wide pocket in an hour, m3; so little of it that the pocket stays as it is. */
  const exchanged = (more: Partial<PocketShape>, start: Partial<Start>, windMs = 0): number =>
    from(start, { ...CLOSED, areaM2: 1e7, mouthWidthM: 20, ...more }, still(2, { windMs })).books.volumeInM3;

  it('lets a light layer out as two-layer hydraulics says: by its width, and its depth to the power 1.5', () => {
    const warm = { upperC: 24 };
    expect(exchanged({ mouthWidthM: 40 }, warm) / exchanged({}, warm)).toBeCloseTo(2, 2);
    expect(exchanged({ meanDepthM: 8 }, warm) / exchanged({ meanDepthM: 2 }, warm)).toBeCloseTo(8, 1);
    // The speed goes with the root of the contrast in density: 4 K at 22 degC against 1 K at 20.5.
    expect(exchanged({}, warm) / exchanged({}, { upperC: 21 })).toBeGreaterThan(1.9);
    expect(exchanged({}, warm) / exchanged({}, { upperC: 21 })).toBeLessThan(2.4);
    expect(exchanged({}, { upperC: 20 })).toBeLessThan(0.2 * exchanged({}, warm));
  });

  it('lets a dense layer out below in the same way, deeper by half as it is', () => {
    const cold = { upperC: 20, lowerC: 16 };
    expect(exchanged({ meanDepthM: 8 }, cold) / exchanged({ meanDepthM: 2 }, cold)).toBeGreaterThan(7.6);
    expect(exchanged({ meanDepthM: 8 }, cold) / exchanged({ meanDepthM: 2 }, cold)).toBeLessThan(8.2);
    const [density, depth] = [4.0 / 4.6, 1.5];
    const ratio = exchanged({}, cold) / exchanged({}, { upperC: 24 });
    expect(ratio / (depth ** 1.5 * Math.sqrt(density))).toBeGreaterThan(0.85);
    expect(ratio / (depth ** 1.5 * Math.sqrt(density))).toBeLessThan(1.1);
  });

  it('lets as much in as out by the wind, in step with wind, width and depth', () => {
    const even = (more: Partial<PocketShape>, windMs: number): number =>
      exchanged({ areaM2: 1e9, ...more }, {}, windMs) - exchanged({ areaM2: 1e9, ...more }, {}, 0);
    expect(even({}, 8) / even({}, 4)).toBeCloseTo(2, 1);
    expect(even({ mouthWidthM: 60 }, 4) / even({}, 4)).toBeCloseTo(3, 1);
    expect(Math.abs(even({ meanDepthM: 6 }, 4) / even({}, 4) - 3)).toBeLessThan(0.2);
  });
});

it('what an hour leaves of a misfit is what a hair of warmth in both layers leaves of itself', () => {
  // A stirred pocket with a stream and no mouth: flows do not hang on the hair, so the difference of two runs is exact.
  const n = 13;
  const each = (value: number): number[] => new Array<number>(n).fill(value);
  const inflow = { stormM3: each(900), streamC: each(20), sedimentMgL: each(0) };
  const hairK = 1e-3;
  for (const windMs of [0.5, 4, 12]) {
    const hours = still(n, { windMs, humidityPct: 70, cloudPct: 40 });
    const run = (addK: number): LayerRun =>
      from({ upperC: 23 + addK, lowerC: 20 + addK }, CLOSED, hours, { inflow });
    const [plain, hair] = [run(0), run(hairK)];
    let kept = 1;
    for (let i = 1; i < n; i++) {
      kept *= plain.keep[i]!;
      expect((hair.meanC[i]! - plain.meanC[i]!) / hairK / kept).toBeCloseTo(1, 1);
    }
    expect(kept).toBeLessThan(0.8);
  }
});
