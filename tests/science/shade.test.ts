import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  diffuseShare,
  directSun,
  horizonAtDeg,
  isSunlit,
  skyView,
  sunShare,
} from '../../src/science/index.ts';

const OPEN = [0];
/** Equinox at the equator: the sun rises in the east, passes overhead and sets in the west, 12 hours later. */
const EQUINOX_NOON = Date.parse('2026-03-20T12:00:00Z');
const HOUR_MS = 3_600_000;
const equator = (horizonDeg: readonly number[]) => ({ latDeg: 0, lonDeg: 0, horizonDeg });
const wholeDay = (horizonDeg: readonly number[]): number =>
  directSun(equator(horizonDeg), EQUINOX_NOON - 12 * HOUR_MS, EQUINOX_NOON + 12 * HOUR_MS)?.sunH ?? 0;

describe('direct sun', () => {
  it('of a day of the equinox on open water is twelve hours', () => {
    expect(wholeDay(OPEN)).toBeCloseTo(12, 0);
  });
  it('behind hills of 30 degrees all round is eight hours: the sun climbs 15 degrees an hour', () => {
    expect(wholeDay([30])).toBeCloseTo(8, 0);
  });
  it('behind hills of 45 degrees in the west alone is nine hours', () => {
    expect(wholeDay([0, 0, 0, 0, 0, 45, 45, 45])).toBeCloseTo(9, 0);
  });
  it('a steep bank that looks west is in the shade in the morning and in the sun in the afternoon', () => {
    const bank = { ...equator(OPEN), bank: { facesDeg: 270, slopeDeg: 60 } };
    expect(isSunlit(bank, EQUINOX_NOON - 4 * HOUR_MS)).toBe(false);
    expect(isSunlit(bank, EQUINOX_NOON + 4 * HOUR_MS)).toBe(true);
  });
  it('a bank that looks south has more of it in winter than one that looks north', () => {
    const noon = Date.parse('2026-12-21T18:00:00Z');
    const on = (facesDeg: number): number =>
      directSun(
        { latDeg: 36, lonDeg: -86, horizonDeg: OPEN, bank: { facesDeg, slopeDeg: 30 } },
        noon - 9 * HOUR_MS,
        noon + 9 * HOUR_MS,
      )?.sunH ?? 0;
    expect(on(180)).toBeGreaterThan(9);
    expect(on(0)).toBeLessThan(on(180) - 4);
  });
});

describe('the light that shade leaves', () => {
  it('is all of it on open ground, and the sky alone behind high hills', () => {
    const open = { latDeg: 36, lonDeg: -86, horizonDeg: OPEN };
    const noon = Date.parse('2026-03-06T18:00:00Z');
    expect(sunShare(open, noon, 600)).toBeCloseTo(1, 9);
    const deep = sunShare({ ...open, horizonDeg: [70] }, noon, 600);
    expect(deep).toBeLessThan(0.1);
    expect(deep).toBeGreaterThan(0);
  });
  it('never grows where the horizon does', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 0, max: 60, noNaN: true }), { minLength: 8, maxLength: 8 }),
        fc.integer({ min: 0, max: 23 }),
        fc.double({ min: 0, max: 900, noNaN: true }),
        (horizonDeg, hour, wm2) => {
          const at = Date.parse('2026-04-06T00:00:00Z') + hour * HOUR_MS;
          const place = { latDeg: 36, lonDeg: -86, horizonDeg };
          const higher = { ...place, horizonDeg: horizonDeg.map((deg) => deg + 10) };
          const share = sunShare(place, at, wm2);
          expect(share).toBeGreaterThanOrEqual(0);
          expect(share).toBeLessThanOrEqual(1 + 1e-9);
          expect(sunShare(higher, at, wm2)).toBeLessThanOrEqual(share + 1e-9);
        },
      ),
      { seed: 19, numRuns: 200 },
    );
  });
  it('sky view of a basin is the squared cosine of its height (Oke 1987)', () => {
    expect(skyView([0])).toBe(1);
    expect(skyView([60])).toBeCloseTo(0.25, 9);
  });
  it('diffuse share follows Erbs, Klein and Duffie (1982): 0.9802 at 0.22, 0.6592 at 0.5, 0.165 in clear air', () => {
    expect(diffuseShare(0)).toBe(1);
    expect(diffuseShare(0.22)).toBeCloseTo(0.9802, 3);
    expect(diffuseShare(0.5)).toBeCloseTo(0.6592, 3);
    expect(diffuseShare(0.85)).toBe(0.165);
    // Its pieces meet.
    expect(diffuseShare(0.2201)).toBeCloseTo(diffuseShare(0.2199), 2);
    expect(diffuseShare(0.8001)).toBeCloseTo(diffuseShare(0.7999), 2);
    expect(() => diffuseShare(-0.1)).toThrow(RangeError);
  });
  it('a horizon lies between the directions that are given', () => {
    expect(horizonAtDeg([0, 10, 20, 10], 45)).toBeCloseTo(5, 9);
    expect(horizonAtDeg([0, 10, 20, 10], 359.9)).toBeLessThan(0.1);
  });
});
