import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { bottomContact, castAngleDeg } from '../../src/science/contact.ts';

const FT = 0.3048;

interface Example {
  readonly example: string;
  readonly D_ft: number;
  readonly dive_len_ft: number;
  readonly rise_len_ft: number;
  readonly bank_deg: number;
  readonly cast_ft: number;
  readonly boat_depth_ft: number;
  readonly target_depth_ft: number;
  readonly cast_angle_deg: number;
  readonly first_touch_at_ft: number | null;
  readonly last_touch_at_ft: number | null;
  readonly contact_frac_closed: number;
}
interface Sweep {
  readonly D: number;
  readonly target_over_D: number;
  readonly boat_minus_D: number;
  readonly theta_deg: number;
  readonly frac: number;
}

const fixture = JSON.parse(
  readFileSync(new URL('../../fixtures/advice-presentation/contact.json', import.meta.url), 'utf8'),
) as { examples: readonly Example[]; sweep: readonly Sweep[] };

/** Worked examples of the planar geometry, computed apart from this code; see fixtures/advice-presentation/README.md. */
describe('bottom contact of a diving lure', () => {
  it.each(fixture.examples)('agrees with the worked example: $example', (row) => {
    const cast = {
      runningDepthM: row.D_ft * FT,
      diveSlope: row.D_ft / row.dive_len_ft,
      riseLengthM: row.rise_len_ft * FT,
      castLengthM: row.cast_ft * FT,
      boatDepthM: row.boat_depth_ft * FT,
      castDepthM: row.target_depth_ft * FT,
    };
    const contact = bottomContact(cast);
    expect(contact.share).toBeCloseTo(row.contact_frac_closed, 2);
    if (row.first_touch_at_ft === null || row.last_touch_at_ft === null) {
      expect(contact).toEqual({ share: 0, fromM: null, toM: null });
    } else {
      expect(contact.fromM! / FT).toBeCloseTo(row.first_touch_at_ft, 0);
      expect(contact.toM! / FT).toBeCloseTo(row.last_touch_at_ft, 0);
      const angle = castAngleDeg(row.bank_deg, cast.castLengthM, cast.boatDepthM - cast.castDepthM);
      expect(angle).toBeCloseTo(row.cast_angle_deg, 1);
    }
  });

  // 75-ft cast, dive slope 0.2, lift over 2.7 times the depth; the sweep prints its landing depths to two digits.
  it('agrees with the sweep over landing and boat depth', () => {
    for (const row of fixture.sweep) {
      const { share } = bottomContact({
        runningDepthM: row.D * FT,
        diveSlope: 0.2,
        riseLengthM: 2.7 * row.D * FT,
        castLengthM: 75 * FT,
        boatDepthM: (row.D + row.boat_minus_D) * FT,
        castDepthM: row.target_over_D * row.D * FT,
      });
      expect(Math.abs(share - row.frac), JSON.stringify(row)).toBeLessThan(0.005);
    }
  });

  it('follows practice for a 6-ft lure: deeper landing and boat mean less contact (0.59 against 0.30)', () => {
    const share = (target: number, boat: number): number =>
      bottomContact({
        runningDepthM: 6 * FT,
        diveSlope: 0.2,
        riseLengthM: 16 * FT,
        castLengthM: 75 * FT,
        boatDepthM: boat * FT,
        castDepthM: target * FT,
      }).share;
    expect(share(2, 7)).toBeCloseTo(0.59, 1);
    expect(share(3, 8)).toBeCloseTo(0.3, 1);
  });

  it('is refused without a length', () => {
    expect(() =>
      bottomContact({
        runningDepthM: 2,
        diveSlope: 0.2,
        riseLengthM: 5,
        castLengthM: 0,
        boatDepthM: 2,
        castDepthM: 1,
      }),
    ).toThrow(RangeError);
  });
});

describe('angle of the cast', () => {
  it('does not exist where the bank is too flat for the drop', () => {
    expect(castAngleDeg(2, 20, 5)).toBeNull();
  });

  it('is 90 degrees where the bank falls by just the drop', () => {
    expect(castAngleDeg(45, 10, 10)).toBeCloseTo(90, 5);
  });

  it('refuses a bank that overhangs', () => {
    expect(() => castAngleDeg(90, 20, 5)).toThrow(RangeError);
  });
});
