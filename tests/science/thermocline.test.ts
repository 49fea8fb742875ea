import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { thermoclineM, waterDensity } from '../../src/science/index.ts';

describe('the layer of a lake, published', () => {
  // Hanna (1990), Can. J. Fish. Aquat. Sci. 47, 1627: log10 z = 0.336 log10 L - 0.245, both m; coefficients from memory.
  it.each([
    [100, 2.67],
    [500, 4.59],
    [1000, 5.79],
    [3000, 8.38],
    [5000, 9.95],
  ])('of %d m of open water stands near %d m', (lengthM, depthM) => {
    expect(thermoclineM(lengthM, 25).depthM).toBeCloseTo(depthM, 1);
  });

  // Gorham and Boyce (1989), J. Great Lakes Res. 15, 233, abstract (https://docslib.org/doc/3961362): 2.0 (stress / g /
  // contrast)^1/2 L^1/2 for basins under 5 km; stress of 10 m/s and deep water of 10 degC are ours.
  it('takes in the second relation within its interval', () => {
    for (const lengthM of [200, 1000, 2000, 4900]) {
      const second = 2 * Math.sqrt(0.156 / 9.81 / (waterDensity(10) - waterDensity(26))) * Math.sqrt(lengthM);
      const { lowM, highM } = thermoclineM(lengthM, 26);
      expect(second).toBeGreaterThanOrEqual(lowM - 1e-9);
      expect(second).toBeLessThanOrEqual(highM + 1e-9);
    }
  });
});

describe('the layer of a lake', () => {
  it('lies deeper in a longer lake, and always within its interval', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 50, max: 150_000, noNaN: true }),
        fc.double({ min: 24, max: 35, noNaN: true }),
        (lengthM, surfaceC) => {
          const [here, longer] = [thermoclineM(lengthM, surfaceC), thermoclineM(2 * lengthM, surfaceC)];
          expect(longer.depthM).toBeGreaterThan(here.depthM);
          expect(here.lowM).toBeLessThan(here.depthM);
          expect(here.highM).toBeGreaterThan(here.depthM);
        },
      ),
    );
  });

  it('is asked for no puddle and no sea', () => {
    expect(() => thermoclineM(10, 25)).toThrow(RangeError);
    expect(() => thermoclineM(1e6, 25)).toThrow(RangeError);
  });
});
