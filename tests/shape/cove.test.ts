/** Pockets of invented shores whose mouths and areas are known. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { coveOf, outlineOf, type Ring, type Spot } from '../../src/shape/index.ts';

/** A lake of 2 km by 1 km with an arm to the north, `width` wide and `length` long. */
const withArm = (width: number, length: number): Ring => [
  [0, 0],
  [2000, 0],
  [2000, 1000],
  [1000 + width / 2, 1000],
  [1000 + width / 2, 1000 + length],
  [1000 - width / 2, 1000 + length],
  [1000 - width / 2, 1000],
  [0, 1000],
];
const turned = (ring: Ring, deg: number, [east, north]: Spot): Ring => {
  const [sin, cos] = [Math.sin((deg * Math.PI) / 180), Math.cos((deg * Math.PI) / 180)];
  // Clockwise, as bearings grow.
  return ring.map(([x, y]): Spot => [x * cos + y * sin + east, -x * sin + y * cos + north]);
};

describe('the mouth of a pocket', () => {
  it('is where an arm opens to the lake', () => {
    const cove = coveOf(outlineOf([withArm(120, 600)]), [1000, 1500], 180);
    expect(cove?.mouthWidthM).toBeCloseTo(120, 0);
    // 120 m by 600 m; a cut is 13 m long.
    expect((cove?.areaM2 ?? 0) / 72_000).toBeCloseTo(1, 1);
  });

  it('of a triangle is its base, and its water half of base times height', () => {
    const ring: Ring = [
      [0, 0],
      [2000, 0],
      [2000, 1000],
      [1150, 1000],
      [1000, 1600],
      [850, 1000],
      [0, 1000],
    ];
    const cove = coveOf(outlineOf([ring]), [1000, 1450], 180);
    expect((cove?.mouthWidthM ?? 0) / 300).toBeCloseTo(1, 1);
    expect((cove?.areaM2 ?? 0) / 90_000).toBeCloseTo(1, 1);
  });

  it('is not found where the water does not open', () => {
    const square: Ring = [
      [0, 0],
      [500, 0],
      [500, 500],
      [0, 500],
    ];
    expect(coveOf(outlineOf([square]), [250, 450], 180)).toBeNull();
  });

  it('does not change when the lake is turned and moved', () => {
    const [ring, spot] = [withArm(120, 600), [1000, 1500] as const];
    const plain = coveOf(outlineOf([ring]), spot, 180);
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 360, noNaN: true }),
        fc.integer({ min: -5000, max: 5000 }),
        (deg, off) => {
          const [at] = turned([spot], deg, [off, -off]);
          const cove = coveOf(outlineOf([turned(ring, deg, [off, -off])]), at ?? spot, (180 + deg) % 360);
          expect(cove?.mouthWidthM).toBeCloseTo(plain?.mouthWidthM ?? 0, 3);
          expect(cove?.areaM2).toBeCloseTo(plain?.areaM2 ?? 0, 1);
        },
      ),
      { numRuns: 40 },
    );
  });
});
