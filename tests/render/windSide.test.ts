/** Which banks the wind reaches. A wind is named by where it comes from (WMO Guide to Instruments, chapter 5). */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { windSides } from '../../src/render/windSide.ts';
import { morningNamed } from '../helpers/mornings.ts';

const { document } = morningNamed('winter-calm');
const HOUR = 3_600_000;
const START = document.plan?.fishing?.fromMs ?? 0;
/** A day whose wind is given hour by hour from the first of its fishing hours on. */
const blowing = (wind: readonly (readonly [fromDeg: number, ms: number])[]) => ({
  ...document,
  plan:
    document.plan == null ? null : { ...document.plan, fishing: { fromMs: START, toMs: START + 12 * HOUR } },
  series: {
    ...document.series,
    hours: wind.map(([windDirDeg, windMs], i) => ({
      atMs: START + i * HOUR,
      sunAltitudeDeg: 20,
      forecast: true,
      windDirDeg,
      windMs,
    })),
  },
});

describe('the side that the wind reaches', () => {
  it.each([
    [180, 0],
    [225, 1],
    [270, 2],
    [0, 4],
    [359, 4],
    [45, 5],
  ])('from %d degrees lies opposite', (fromDeg, bank) => {
    expect(windSides(blowing(Array<[number, number]>(4).fill([fromDeg, 5])))).toEqual([
      { bank, fromMs: START, toMs: START + 4 * HOUR },
    ]);
  });

  it('has the hours in which it blows, and none in a calm', () => {
    const calm = [180, 1] as const;
    const fresh = [180, 6] as const;
    expect(windSides(blowing([calm, calm, fresh, fresh, fresh, calm]))).toEqual([
      { bank: 0, fromMs: START + 2 * HOUR, toMs: START + 5 * HOUR },
    ]);
    expect(windSides(blowing([calm, calm, calm]))).toEqual([]);
  });

  it('changes where the wind turns, and is not told of one that keeps turning', () => {
    const from = (deg: number) => [deg, 6] as const;
    expect(
      windSides(blowing([from(180), from(180), from(315), from(315), from(315)])).map(({ bank }) => bank),
    ).toEqual([0, 3]);
    expect(windSides(blowing([0, 0, 90, 90, 180, 180, 270, 270].map(from)))).toEqual([]);
  });

  it('is not ended by one hour of another wind', () => {
    const wind = [180, 180, 180, 225, 180, 180].map((deg) => [deg, 5] as const);
    expect(windSides(blowing(wind))).toEqual([{ bank: 0, fromMs: START, toMs: START + 6 * HOUR }]);
  });

  it('turns with the wind', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 7 }), fc.integer({ min: 0, max: 7 }), (eighth, turn) => {
        const bankOf = (n: number) =>
          windSides(blowing(Array<[number, number]>(3).fill([(n % 8) * 45, 5])))[0]?.bank;
        expect(bankOf(eighth + turn)).toBe(((bankOf(eighth) ?? 0) + turn) % 8);
      }),
    );
  });

  it('is not told of hours that are over when the page is made', () => {
    const day = blowing(Array<[number, number]>(6).fill([180, 5]));
    expect(windSides({ ...day, issuedMs: START + 3 * HOUR })).toEqual([
      { bank: 0, fromMs: START + 3 * HOUR, toMs: START + 6 * HOUR },
    ]);
    expect(windSides({ ...day, issuedMs: START + 7 * HOUR })).toEqual([]);
  });
});
