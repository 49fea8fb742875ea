import type { Curve } from '../../config/index.ts';

/**
 * Value of a piecewise-linear curve; level beyond both ends.
 *
 * @param curve points [x, y] with rising x, at least two
 * @param x     in the unit of the curve's first numbers
 * @returns y between the lowest and the highest of the curve
 */
export function curveAt(curve: Curve, x: number): number {
  let from = curve[0];
  if (from === undefined) return 0;
  if (x <= from[0]) return from[1];
  // By index: an advice asks tens of thousands of times.
  for (let i = 1; i < curve.length; i += 1) {
    const to = curve[i];
    if (to === undefined) break;
    if (x <= to[0]) return from[1] + ((to[1] - from[1]) * (x - from[0])) / (to[0] - from[0]);
    from = to;
  }
  return from[1];
}
