/** A bottom lure whose casts leave most of the depth to the next ones says so. Common practice, no source. */
import { describe, expect, it } from 'vitest';
import { planOf } from '../plan/support.ts';

describe('a bottom lure', () => {
  it('that fishes less than half of its depth in one cast is landed deeper with the next', () => {
    let left = 0;
    for (const main of ['46 F', '53 F', '58 F'])
      for (const waterBody of ['natural-lake', 'highland-reservoir', 'hill-land-reservoir'])
        for (const { cast, depthM } of planOf({
          date: '2026-10-15',
          latitude: 44,
          waterBody,
          species: 'smallmouth',
          air: { mean24h: '46 F', highToday: '52 F' },
          water: { main, clarity: '14 ft', change7d: '-4 F' },
          wind: { speed: '12 mph' },
        }).blocks) {
          const { told } = cast;
          if (told.family !== 'bottom' || told.contact === null || told.castLengthM < 12) continue;
          const { castDepthM, boatDepthM, castLengthM, contact, deeperToM } = told;
          const deepM = Math.min(depthM[1], boatDepthM);
          const endsM = castDepthM + ((boatDepthM - castDepthM) * contact.toM) / castLengthM;
          if (endsM - castDepthM >= (deepM - castDepthM) / 2) continue;
          left += 1;
          expect(deeperToM, `${main} ${waterBody}`).toBeCloseTo(deepM, 6);
        }
    expect(left).toBeGreaterThan(0);
  });
});
