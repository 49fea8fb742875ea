// No measured table of falling lures was found: the fall is held against the balance of forces it stands for.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { sinkRateMs } from '../../src/science/index.ts';

const NO_LINE = { lengthM: 1e-6, diameterM: 1e-3, weightNPerM: 0 };
const G = 9.80665;

describe('a falling body', () => {
  it('without line falls as a sphere does: 1 cm of lead at drag 0.5 and 1.64 m/s, worked out by hand', () => {
    // Terminal speed of a sphere: v^2 = 4 g d (density ratio - 1) / (3 drag), any textbook of fluid mechanics.
    const volumeM3 = (Math.PI / 6) * 0.01 ** 3;
    const fall = sinkRateMs({ massKg: 11_340 * volumeM3, volumeM3, dragM2: 0 }, NO_LINE);
    expect(fall).toBeCloseTo(Math.sqrt((4 * G * 0.01 * (11_340 / 998 - 1)) / (3 * 0.5)), 3);
    expect(fall).toBeCloseTo(1.648, 2);
  });

  it('stays where the water carries it, and where only half the line pulls it down it still falls', () => {
    const floats = { massKg: 0.005, volumeM3: 0.005 / 998, dragM2: 1e-3 };
    expect(sinkRateMs(floats, NO_LINE)).toBe(0);
    expect(sinkRateMs({ ...floats, massKg: 0.004 }, NO_LINE)).toBe(0);
    expect(sinkRateMs(floats, { lengthM: 10, diameterM: 3e-4, weightNPerM: 1e-3 })).toBeGreaterThan(0);
  });

  it('is in balance: weight in water with half the line equals the drag of body, head and line', () => {
    // Line along itself: 4 pi viscosity v L / ln(4 kinematic viscosity L / (v r^2)), Glauert and Lighthill (from memory).
    fc.assert(
      fc.property(
        fc.double({ min: 0.002, max: 0.03, noNaN: true }),
        fc.double({ min: 1.5, max: 9, noNaN: true }),
        fc.double({ min: 1e-4, max: 3e-3, noNaN: true }),
        fc.double({ min: 0.5, max: 10, noNaN: true }),
        fc.double({ min: 1e-4, max: 4e-4, noNaN: true }),
        (massKg, density, dragM2, lengthM, diameterM) => {
          const volumeM3 = massKg / (density * 998);
          const weightNPerM = 5e-4;
          const v = sinkRateMs({ massKg, volumeM3, dragM2 }, { lengthM, diameterM, weightNPerM });
          const pull = G * (massKg - 998 * volumeM3) + (weightNPerM * lengthM) / 2;
          const slender = (4 * (1e-3 / 998) * lengthM) / (v * (diameterM / 2) ** 2);
          fc.pre(slender > 3);
          const line = (4 * Math.PI * 1e-3 * v * lengthM) / Math.log(slender);
          fc.pre(line < 0.9 * pull);
          const radiusM = ((3 * volumeM3) / (4 * Math.PI)) ** (1 / 3);
          const body = ((998 * v ** 2) / 2) * (dragM2 + 0.5 * Math.PI * radiusM ** 2);
          expect((body + line) / pull).toBeCloseTo(1, 4);
        },
      ),
    );
  });

  it('is held back by a long thick line, never below what a twentieth of its pull gives', () => {
    const body = { massKg: 0.003, volumeM3: 1e-6, dragM2: 1e-3 };
    const free = sinkRateMs(body, NO_LINE);
    const held = sinkRateMs(body, { lengthM: 30, diameterM: 5e-4, weightNPerM: 0 });
    expect(held).toBeLessThan(free);
    expect(sinkRateMs(body, { lengthM: 3000, diameterM: 5e-4, weightNPerM: 0 }) / free).toBeCloseTo(
      Math.sqrt(0.05),
      2,
    );
  });
});
