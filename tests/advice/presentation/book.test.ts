import { describe, expect, it } from 'vitest';
import { lureBookSchema } from '../../../src/config/rulesLures.ts';
import { parseYaml } from '../../../src/config/yaml.ts';
import { suitedReel } from '../../../src/advice/presentation/tackle.ts';
import { depthFactor } from '../../../src/advice/presentation/depth.ts';
import { LURE, PLACE, PLACES } from '../../../src/vocabulary/index.ts';
import { along } from '../../../src/advice/presentation/curves.ts';
import { book, tackle } from './day.ts';

const refused = (change: (copy: typeof book) => void): (() => unknown) => {
  const copy = structuredClone(book);
  change(copy);
  return () => parseYaml(JSON.stringify(copy), 'lures.yaml', lureBookSchema);
};

describe('the lure book', () => {
  it('holds 27 classes and 27 kinds of place', () => {
    expect(new Set(book.classes.map((entry) => entry.id)).size).toBe(27);
    expect(Object.keys(book.places)).toHaveLength(27);
  });

  it('knows every class of the vocabulary, worked the way it says', () => {
    expect(Object.fromEntries(book.classes.map(({ id, family }) => [id, family]))).toEqual(LURE);
    expect(Object.keys(book.places).sort()).toEqual([...PLACES].sort());
    for (const [id, { kind }] of Object.entries(book.places))
      expect(kind, id).toBe(PLACE[id as keyof typeof PLACE].cover);
  });

  it('is refused when a temperature window is out of order', () => {
    expect(refused((copy) => (copy.classes[0]!.waterC.min = 30))).toThrow(/must rise in this order/);
  });

  it('is refused when a class names a place that is not described', () => {
    expect(refused((copy) => copy.classes[0]!.places.push('moon'))).toThrow(/"moon" is not described/);
  });

  it('is refused when a curve runs backwards', () => {
    expect(refused((copy) => copy.classes[0]!.speed.reverse())).toThrow(/put the pairs in order/);
  });

  // Nominal fluorocarbon diameters (from memory; brands differ by about 12 %): breaking stress is near one value.
  it('has fluorocarbon diameters of one material: 600 to 700 MPa at every test', () => {
    for (const [kg, mm] of book.settings.fluorocarbonMm) {
      const stressMPa = (kg * 9.80665) / (Math.PI * (mm / 2) ** 2);
      expect(stressMPa).toBeGreaterThan(600);
      expect(stressMPa).toBeLessThan(700);
    }
  });

  // Speeds by common practice: 42 F 0.8 ft/s, 47 1.2, 50 1.45, 56 2.0, 60 2.3, 65 2.6, 75 3.15, 85 3.5.
  it.each([
    [42, 0.8],
    [47, 1.2],
    [50, 1.45],
    [56, 2],
    [60, 2.3],
    [65, 2.6],
    [75, 3.15],
    [85, 3.5],
  ])('retrieves at %d F near %d ft/s', (f, feetPerSecond) => {
    const waterC = (f - 32) / 1.8;
    const round = book.classes.find(
      ({ id }) => id === (f < 55 ? 'flat-sided crankbait' : 'round-bodied crankbait'),
    )!;
    expect(Math.abs(along(round.speed, waterC) / 0.3048 - feetPerSecond)).toBeLessThan(0.12);
  });
});

/** Towed-line model, computed apart from this code and unvalidated; rule of practice for the exponent of diameter. */
describe('running depth', () => {
  const flat = book.classes.find((entry) => entry.id === 'flat-sided crankbait')!;
  const factor = (
    yards: number,
    mm: number,
    speed: number,
    exponent = book.settings.diameterExponent,
  ): number => depthFactor(flat, yards * 0.9144, mm, speed, { ...book.settings, diameterExponent: exponent });

  it('is the rated depth at 30 yd, 0.33 mm and 0.6 m/s', () => {
    expect(factor(30, 0.33, 0.6)).toBeCloseTo(1, 2);
  });

  it('at 20 yd is 68 to 72 % of that at 30 yd', () => {
    expect(factor(20, 0.33, 0.6) / factor(30, 0.33, 0.6)).toBeGreaterThan(0.68);
    expect(factor(20, 0.33, 0.6) / factor(30, 0.33, 0.6)).toBeLessThan(0.72);
  });

  it('gains 6 to 21 % from 2 to 4 ft/s', () => {
    const gain = factor(30, 0.33, 1.22) / factor(30, 0.33, 0.61);
    expect(gain).toBeGreaterThan(1.06);
    expect(gain).toBeLessThan(1.21);
  });

  it('follows the exponent that is set: none, the model’s, or the one of practice', () => {
    expect(factor(30, 0.46, 0.6, 0)).toBeCloseTo(factor(30, 0.33, 0.6, 0), 12);
    expect(factor(30, 0.46, 0.6, -0.19)).toBeCloseTo((0.46 / 0.33) ** -0.19, 2);
    // Half a foot of 6 ft from 12 lb (0.33 mm) to 17 lb (0.38 mm), two sizes up, needs about -0.5 or steeper.
    expect(6 - 6 * factor(30, 0.38, 0.6, -0.5)).toBeGreaterThan(0.35);
  });

  it('on nylon is less than on fluorocarbon of the same diameter', () => {
    const nylon = { ...flat, line: { ...flat.line, material: 'nylon' as const } };
    const ratio =
      depthFactor(nylon, 27.4, 0.33, 0.6, book.settings) / depthFactor(flat, 27.4, 0.33, 0.6, book.settings);
    expect(ratio).toBeGreaterThan(0.91);
    expect(ratio).toBeLessThan(1);
  });
});

/** Inches of line a turn: gear x pi x spool diameter; full spools of 1.26 and 1.34 in, one half empty of 1.10 in. */
describe('reel arithmetic', () => {
  const jig = book.classes.find((entry) => entry.id === 'jig')!;
  it.each([
    [5.4, 1.26, 21.4],
    [5.4, 1.34, 22.7],
    [6.4, 1.34, 26.9],
    [6.8, 1.26, 26.9],
    [7.5, 1.26, 29.7],
    [8.1, 1.34, 34.1],
    [6.8, 1.1, 23.5],
  ])('a %d:1 reel with a spool of %d in takes %d in', (gear, spoolIn, inches) => {
    const reel = suitedReel(
      jig,
      { ...tackle, reels: [{ name: 'reel', gear, spoolM: spoolIn * 0.0254 }] },
      book.settings,
    );
    expect(reel.takeM / 0.0254).toBeCloseTo(inches, 1);
  });

  it('picks the gear nearest to what the class wants', () => {
    const reels = [5.4, 6.4, 7.1, 8.1].map((gear) => ({ name: String(gear), gear, spoolM: 0.033 }));
    for (const lure of book.classes) {
      const picked = suitedReel(lure, { ...tackle, reels }, book.settings).gear;
      for (const { gear } of reels)
        expect(Math.abs(picked - lure.gear)).toBeLessThanOrEqual(Math.abs(gear - lure.gear));
    }
  });
});
