/** Where the oxygen ends nothing is told below it. The distances are common practice, no source. */
import { describe, expect, it } from 'vitest';
import { beginsAbove, cutAt, depthLimitM } from '../../src/advice/depthLimit.ts';

const FOOT_M = 0.3048;

describe('the depth that nothing goes below', () => {
  it('is a foot above where the oxygen ends, or two feet below the layer, whichever is shallower', () => {
    expect(depthLimitM({})).toBeUndefined();
    expect(depthLimitM({ oxygenM: 6 })).toBeCloseTo(6 - FOOT_M, 9);
    expect(depthLimitM({ layerM: 6 })).toBeCloseTo(6 + 2 * FOOT_M, 9);
    expect(depthLimitM({ oxygenM: 6, layerM: 8 })).toBeCloseTo(6 - FOOT_M, 9);
    expect(depthLimitM({ oxygenM: 9, layerM: 4 })).toBeCloseTo(4 + 2 * FOOT_M, 9);
    expect(depthLimitM({ oxygenM: 0.5 })).toBeCloseTo(2 * FOOT_M, 9);
  });

  it('leaves out a place that begins less than a foot above it', () => {
    expect(beginsAbove({ depthM: [4.7, 8] }, 5)).toBe(true);
    expect(beginsAbove({ depthM: [4.71, 8] }, 5)).toBe(false);
    expect(beginsAbove({ depthM: [40, 50] }, undefined)).toBe(true);
  });

  it('cuts a band at it, leaves one above it as it is, and never turns one over', () => {
    expect(cutAt([2, 9], undefined)).toEqual([2, 9]);
    expect(cutAt([2, 5.55], 5.55)).toEqual([2, 5.55]);
    expect(cutAt([2, 9], 5.55)).toEqual([2, 5.5]);
    expect(cutAt([5.4, 9], 5.55)).toEqual([5.2, 5.5]);
  });
});
