/** What stands around a pocket. */
import { describe, expect, it } from 'vitest';
import { horizonOf } from '../../src/signals/place/surroundings.ts';
import { testLake } from '../helpers/weatherRecord.ts';

describe('what stands around a pocket', () => {
  const [draw] = testLake.pockets;
  it('is open within 60 degrees of the side it faces, and as high as its cover elsewhere', () => {
    const { horizonDeg, guessed } = horizonOf(
      { ...draw!, facesDeg: 180, landCover: 'wooded', areaM2: 6400 },
      testLake,
    )!;
    const height = (Math.atan(15 / 40) * 180) / Math.PI;
    expect(guessed).toBe(true);
    expect(horizonDeg.map((deg) => Math.round(deg * 1000) / 1000)).toEqual(
      [height, height, height, 0, 0, 0, height, height].map((deg) => Math.round(deg * 1000) / 1000),
    );
    const north = horizonOf({ ...draw!, facesDeg: 350, landCover: 'pasture' }, testLake)!.horizonDeg;
    expect(north.map((deg) => deg === 0)).toEqual([true, true, false, false, false, false, false, true]);
  });
  it('is what the configuration says, of the pocket before the lake, and unknown where nothing does', () => {
    const lake = { ...testLake, horizonDeg: [5] };
    expect(horizonOf({ ...draw!, horizonDeg: [9] }, lake)).toEqual({ horizonDeg: [9], guessed: false });
    expect(horizonOf(draw!, lake)).toEqual({ horizonDeg: [5], guessed: false });
    expect(horizonOf(draw!, testLake)).toBeNull();
  });
});
