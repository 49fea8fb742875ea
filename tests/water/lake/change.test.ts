/** The change of the water over a span, and the interval of water that nobody reads: on days of the caller's own. */
import { describe, expect, it } from 'vitest';
import { Z80 } from '../../../src/science/index.ts';
import { nowcastLake, waterChange, type LakeDay } from '../../../src/water/lake/index.ts';
import { dateAfter, inventedWeather } from './inventedWeather.ts';

const END = '2024-06-30';
const day = (back: number, waterC: number, more: Partial<LakeDay> & { halfC?: number } = {}): LakeDay => {
  const { halfC = 0, ...own } = more;
  return {
    date: dateAfter(END, -back),
    waterC,
    lowC: waterC - halfC,
    highC: waterC + halfC,
    readingAgeDays: null,
    freeC: waterC,
    leadDays: 0,
    ...own,
  };
};

describe('a change of the water', () => {
  it('is sure from two standard errors on, likely from one, both included', () => {
    // Estimates without any error of their own still differ by 0.15 K.
    const sdC = 0.15 / Z80;
    const told = (changeC: number) => waterChange([day(3, 0), day(0, changeC)], END, 3)!.confidence;
    for (const sign of [1, -1])
      expect([2, 1.999, 1, 0.999, 0].map((times) => told(sign * times * sdC))).toEqual([
        'high',
        'medium',
        'medium',
        'low',
        'low',
      ]);
  });

  it('has an interval about itself', () => {
    const { changeC, lowC, highC } = waterChange(
      [day(3, 12, { halfC: 1 }), day(0, 14, { halfC: 1 })],
      END,
      3,
    )!;
    expect(changeC).toBe(2);
    expect(highC - changeC).toBeCloseTo(changeC - lowC, 12);
    expect(highC).toBeGreaterThan(changeC);
  });

  it('is surer over a day than over weeks, since the two ends then share their error; and never surer than the two apart', () => {
    const half = (span: number, age: number | null, startAge = age): number => {
      const [readingAgeDays, halfC] = [age, 1];
      const found = waterChange(
        [day(span, 10, { halfC, readingAgeDays: startAge }), day(0, 12, { halfC, readingAgeDays })],
        END,
        span,
      )!;
      return (found.highC - found.changeC) / Math.SQRT2;
    };
    for (const age of [null, 5]) {
      for (const span of [1, 3, 7]) expect(half(span + 1, age)).toBeGreaterThan(half(span, age));
      expect(half(365, age)).toBe(half(300, age));
      expect(half(365, age)).toBeLessThan(1);
    }
    // Measured on held-out years of five lakes (`change.ts`): a quarter over a day that nobody read, all of it between readings.
    expect(half(1, null)).toBeCloseTo(0.23, 9);
    expect(half(1, 5)).toBeCloseTo(0.43, 9);
    expect(half(1, 0)).toBeCloseTo(0.94, 9);
    expect([half(365, null), half(365, 5), half(365, 0)].map((share) => Math.round(100 * share))).toEqual([
      80, 95, 110,
    ]);
    // Fresh are readings of up to two days, at both ends.
    expect(half(7, 2)).toBe(half(7, 0));
    expect(half(7, 3)).toBe(half(7, 9));
    expect([half(7, 1, 9), half(7, 9, 1)]).toEqual([half(7, 9), half(7, 9)]);
    expect([half(7, null, 1), half(7, 1, null)]).toEqual([half(7, null), half(7, null)]);
  });

  it('goes by what is known of both days by now', () => {
    const again = { waterC: 11, halfC: 0.5 };
    const found = waterChange(
      [day(3, 9, { hindsight: again }), day(0, 12, { hindsight: { waterC: 12.5, halfC: 0.4 } })],
      END,
      3,
    )!;
    expect(found.changeC).toBe(1.5);
    expect(found.highC - found.changeC).toBeCloseTo(Math.hypot(0.5, 0.4) * (0.23 + 0.145 * Math.log(3)), 9);
  });

  it('is not told where either end is missing', () => {
    expect(waterChange([day(0, 12)], END, 3)).toBeNull();
    expect(waterChange([day(3, 12)], END, 3)).toBeNull();
    expect(waterChange([], END, 3)).toBeNull();
  });
});

describe('the interval of a lake that nobody reads', () => {
  const half = (latDeg: number): Map<string, LakeDay> => {
    const weather = inventedWeather('2019-01-01', 1100, latDeg).map((one) => ({
      ...one,
      airC: one.airC! - 8,
    }));
    const { days } = nowcastLake({ latDeg, meanDepthM: 8, areaKm2: 5 }, weather, []);
    return new Map(days.slice(500).map((one) => [one.date, one]));
  };

  it('is a band of water temperature in the north, where lakes were measured, and wider in the south, where few were', () => {
    const north = [...half(50).values()];
    const width = (low: number, high: number): number[] =>
      north.filter(({ waterC }) => waterC >= low && waterC < high).map(({ highC, waterC }) => highC - waterC);
    const bands = [width(0, 3), width(3, 8), width(8, 18), width(18, 40)];
    for (const widths of bands) {
      expect(widths.length).toBeGreaterThan(5);
      expect(Math.max(...widths) - Math.min(...widths)).toBeLessThan(0.02);
    }
    const middles = bands.map((widths) => widths[0]!);
    expect(middles).toEqual([...middles].sort((a, b) => a - b));
    expect(middles[0]).toBeCloseTo(1, 1);
    expect(middles[3]).toBeCloseTo(1.43, 1);
    const south = [...half(36).values()].map(({ highC, waterC }) => highC - waterC);
    expect(Math.min(...south)).toBeGreaterThan(1.75);
    expect(Math.max(...south)).toBeLessThan(1.85);
    expect([...half(-36).values()].every(({ highC, waterC }) => highC - waterC > 1.75)).toBe(true);
  });

  it('never reaches below the freezing of water', () => {
    const cold = [...half(50).values()].filter(({ waterC }) => waterC < 0.5);
    expect(cold.length).toBeGreaterThan(0);
    for (const { lowC } of cold) expect(lowC).toBe(0);
  });
});
