import type { Curve } from '../../config/rulesPlaces.ts';

/**
 * Value of a piecewise-linear curve; level beyond both ends.
 *
 * @param curve points [x, y] with rising x, at least two
 * @param x     in the unit of the curve's first numbers
 * @returns y between the lowest and the highest of the curve
 */
export function curveAt(curve: Curve, x: number): number {
  let [fromX, fromY] = curve[0] ?? [0, 0];
  if (x <= fromX) return fromY;
  for (const [toX, toY] of curve.slice(1)) {
    if (x <= toX) return fromY + ((toY - fromY) * (x - fromX)) / (toX - fromX);
    [fromX, fromY] = [toX, toY];
  }
  return fromY;
}
