import { requireRange } from './range.ts';

/** Dimensionless unit hydrograph: flow over peak flow at time over time to peak. */
const CURVE: readonly (readonly [time: number, flow: number])[] = [
  [0, 0],
  [0.1, 0.03],
  [0.2, 0.1],
  [0.3, 0.19],
  [0.4, 0.31],
  [0.5, 0.47],
  [0.6, 0.66],
  [0.7, 0.82],
  [0.8, 0.93],
  [0.9, 0.99],
  [1, 1],
  [1.1, 0.99],
  [1.2, 0.93],
  [1.3, 0.86],
  [1.4, 0.78],
  [1.5, 0.68],
  [1.6, 0.56],
  [1.7, 0.46],
  [1.8, 0.39],
  [1.9, 0.33],
  [2, 0.28],
  [2.2, 0.207],
  [2.4, 0.147],
  [2.6, 0.107],
  [2.8, 0.077],
  [3, 0.055],
  [3.2, 0.04],
  [3.4, 0.029],
  [3.6, 0.021],
  [3.8, 0.015],
  [4, 0.011],
  [4.5, 0.005],
  [5, 0],
];

export interface UnitHydrograph {
  /** Time from the start of the rain pulse to the peak, h. */
  readonly timeToPeakH: number;
  /** Peak flow per millimetre of runoff, m3/s. */
  readonly peakM3sPerMm: number;
}

/**
 * NRCS unit hydrograph of a watershed.
 *
 * @param areaKm2   watershed area, km2, above 0
 * @param lagH      lag, h, above 0
 * @param durationH duration of the rain pulse, h; default 0.133 of the time of concentration
 * @throws RangeError outside the ranges
 * @see USDA NRCS, National Engineering Handbook 630, ch. 16; peak factor 484 (2.08 metric) for average terrain
 * @example unitHydrograph(11.2, 1.719).peakM3sPerMm * 10 // 12.2 m3/s per cm
 */
export function unitHydrograph(
  areaKm2: number,
  lagH: number,
  durationH = (0.133 * lagH) / 0.6,
): UnitHydrograph {
  requireRange('areaKm2', areaKm2, 0, 1e6);
  requireRange('lagH', lagH, Number.MIN_VALUE, 1000);
  requireRange('durationH', durationH, 0, 1000);
  const timeToPeakH = durationH / 2 + lagH;
  return { timeToPeakH, peakM3sPerMm: (0.208 * areaKm2) / timeToPeakH };
}

/**
 * Flow over peak flow of the curvilinear unit hydrograph.
 *
 * @param ratio time over time to peak, any number
 * @returns 0 to 1; 0 before the start and from five times the time to peak on
 * @see USDA NRCS, National Engineering Handbook 630, table 16-1 (values from memory, integral checked)
 */
export function hydrographOrdinate(ratio: number): number {
  for (let i = 1; i < CURVE.length; i++) {
    const a = CURVE[i - 1];
    const b = CURVE[i];
    if (a && b && ratio >= a[0] && ratio <= b[0]) {
      return a[1] + ((ratio - a[0]) / (b[0] - a[0])) * (b[1] - a[1]);
    }
  }
  return 0;
}

/** Integral of the curve from 0 to the ratio, exact for its straight pieces. */
function curveIntegral(ratio: number): number {
  let sum = 0;
  for (let i = 1; i < CURVE.length; i++) {
    const a = CURVE[i - 1];
    const b = CURVE[i];
    if (!a || !b || ratio <= a[0]) break;
    const end = Math.min(ratio, b[0]);
    sum += ((end - a[0]) * (a[1] + hydrographOrdinate(end))) / 2;
  }
  return sum;
}
const WHOLE = curveIntegral(5);

/**
 * Shares of a runoff pulse that pass in each step after the pulse began; they sum to 1 exactly enough for books
 * of volume (1e-12), which sampling the curve at the hours would not give for quick watersheds.
 *
 * @param timeToPeakH time to peak, h, above 0
 * @param stepH       step, h, above 0
 * @returns share of the volume per step
 * @throws RangeError outside the ranges
 */
export function hydrographShares(timeToPeakH: number, stepH: number): number[] {
  requireRange('timeToPeakH', timeToPeakH, Number.MIN_VALUE, 1000);
  requireRange('stepH', stepH, Number.MIN_VALUE, 1000);
  const steps = Math.max(1, Math.ceil((5 * timeToPeakH) / stepH));
  const shares: number[] = [];
  let before = 0;
  for (let i = 1; i <= steps; i++) {
    const after = i === steps ? 1 : curveIntegral((i * stepH) / timeToPeakH) / WHOLE;
    shares.push(after - before);
    before = after;
  }
  return shares;
}
