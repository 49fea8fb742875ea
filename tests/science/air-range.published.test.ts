// Extremes that were really measured lie within the range of their latitude and season. Source of those marked WMO: World
// Weather and Climate Extremes Archive of the World Meteorological Organization; the others: records of the national
// weather services. All numbers, places and days from memory.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { airRangesC } from '../../src/science/index.ts';

const dayOf = (month: number, day: number): number =>
  Math.round((Date.UTC(2026, month - 1, day) - Date.UTC(2026, 0, 1)) / 86_400_000) + 1;

describe('the range of the air', () => {
  it.each([
    ['Furnace Creek, California (WMO, the world)', 36.5, dayOf(7, 10), 56.7],
    ['Kebili, Tunisia', 33.7, dayOf(7, 7), 55],
    ['Vostok (WMO, the world)', -78.5, dayOf(7, 21), -89.2],
    ['Klinck, Greenland (WMO, northern hemisphere)', 72.3, dayOf(12, 22), -69.6],
    ['Verkhoyansk (WMO, north of the polar circle)', 67.5, dayOf(6, 20), 38],
    ['Oodnadatta (WMO, southern hemisphere)', -27.6, dayOf(1, 2), 50.7],
    ['Esperanza (WMO, Antarctic mainland)', -63.4, dayOf(2, 6), 18.3],
    ['Signy (WMO, south of 60 degrees)', -60.7, dayOf(1, 30), 19.8],
    ['Syracuse, Sicily (WMO, Europe)', 37, dayOf(8, 11), 48.8],
    ['Lytton, British Columbia', 50.2, dayOf(6, 29), 49.6],
    ['Prospect Creek, Alaska', 66.8, dayOf(1, 23), -62.1],
    ['Rogers Pass, Montana', 47.1, dayOf(1, 20), -56.7],
    ['Maybell, Colorado', 40.5, dayOf(2, 1), -51.7],
    ['Zapata, Texas, in January', 26.9, dayOf(1, 17), 36.7],
    ['Falcon Dam, Texas, in March', 26.6, dayOf(3, 31), 42.2],
    ['Kinlochewe, Scotland, in January', 57.6, dayOf(1, 28), 19.9],
    ['Kodiak, Alaska, in December', 57.8, dayOf(12, 26), 19.4],
    ['Gavarda, Spain, in January', 39.1, dayOf(1, 25), 29.5],
  ])('holds %s', (_, latDeg, day, airC) => {
    const [low, high] = airRangesC(latDeg)(day);
    expect(airC).toBeGreaterThan(low);
    expect(airC).toBeLessThan(high);
  });

  it('leaves out winter air in degF that is called degC', () => {
    // 5 degC, a usual November noon of the middle latitudes, is 41 degF; a warm one of 20 degC is 68.
    for (const airC of [8, 20]) expect(airC * 1.8 + 32).toBeGreaterThan(airRangesC(36)(dayOf(11, 26))[1]);
    expect(278).toBeGreaterThan(airRangesC(0)(1)[1]);
  });

  it('goes round with the year, mirrored in the south, and is never empty', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.1, max: 90, noNaN: true }),
        fc.double({ min: 1, max: 366, noNaN: true }),
        (latDeg, day) => {
          const [low, high] = airRangesC(latDeg)(day);
          expect(high - low).toBeGreaterThan(40);
          const mirrored = airRangesC(-latDeg)(day + 365.25 / 2);
          expect(mirrored[0]).toBeCloseTo(low, 6);
          expect(mirrored[1]).toBeCloseTo(high, 6);
        },
      ),
    );
    expect(() => airRangesC(91)(1)).toThrow(RangeError);
  });
});
