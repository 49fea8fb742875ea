import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bottomContact, type ContactCast } from '../../src/science/contact.ts';

/** Steps along the retrieve: dives freely, is held by the bottom, and is capped near the boat. */
function stepped(cast: ContactCast, steps: number): number {
  const { runningDepthM, diveSlope, riseLengthM, castLengthM, boatDepthM, castDepthM } = cast;
  const dx = castLengthM / steps;
  let depth = 0;
  let touching = 0;
  for (let index = 1; index <= steps; index += 1) {
    const x = index * dx;
    const bottom = castDepthM + ((boatDepthM - castDepthM) * x) / castLengthM;
    const cap = Math.min(runningDepthM, (runningDepthM * (castLengthM - x)) / riseLengthM);
    depth = Math.min(depth + diveSlope * dx, cap);
    if (depth >= bottom - 1e-12) {
      depth = bottom;
      touching += 1;
    }
  }
  return touching / steps;
}

const casts: fc.Arbitrary<ContactCast> = fc
  .record({
    runningDepthM: fc.double({ min: 0.5, max: 6, noNaN: true }),
    diveSlope: fc.double({ min: 0.1, max: 0.5, noNaN: true }),
    riseRatio: fc.double({ min: 1, max: 4, noNaN: true }),
    castLengthM: fc.double({ min: 10, max: 40, noNaN: true }),
    boatRatio: fc.double({ min: 0.8, max: 2, noNaN: true }),
    castRatio: fc.double({ min: 0, max: 0.8, noNaN: true }),
  })
  .map(({ runningDepthM, riseRatio, boatRatio, castRatio, ...rest }) => ({
    runningDepthM,
    ...rest,
    riseLengthM: riseRatio * runningDepthM,
    boatDepthM: boatRatio * runningDepthM,
    castDepthM: castRatio * runningDepthM,
  }));

describe('the closed form of bottom contact', () => {
  it('equals stepping along the retrieve within a few steps, on 400 random casts', () => {
    const steps = 4000;
    fc.assert(
      fc.property(casts, (cast) => {
        // A lure that dives exactly as the bank does, from the very shore, is on bottom or just off it: both are right.
        const bankSlope = (cast.boatDepthM - cast.castDepthM) / cast.castLengthM;
        fc.pre(Math.abs(cast.diveSlope - bankSlope) > 1e-6);
        expect(Math.abs(bottomContact(cast).share - stepped(cast, steps))).toBeLessThanOrEqual(4 / steps);
      }),
      { numRuns: 400 },
    );
  });

  it('stays between nothing and the whole retrieve, with its ends on the cast', () => {
    fc.assert(
      fc.property(casts, (cast) => {
        const { share, fromM, toM } = bottomContact(cast);
        expect(share).toBeGreaterThanOrEqual(0);
        expect(share).toBeLessThanOrEqual(1);
        if (fromM === null || toM === null) expect(share).toBe(0);
        else expect(0 <= fromM && fromM < toM && toM <= cast.castLengthM).toBe(true);
      }),
    );
  });

  it('never gains contact when the boat moves to deeper water', () => {
    fc.assert(
      fc.property(casts, (cast) => {
        const deeper = { ...cast, boatDepthM: cast.boatDepthM + 0.3 };
        expect(bottomContact(deeper).share).toBeLessThanOrEqual(bottomContact(cast).share + 1e-9);
      }),
    );
  });
});
