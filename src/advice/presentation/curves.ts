type Curve = readonly (readonly [number, number])[];

/** Value of a piecewise-linear curve, held level beyond its ends. */
export function along(curve: Curve, x: number): number {
  const first = curve[0];
  const last = curve.at(-1);
  if (first === undefined || last === undefined) throw new RangeError('a curve needs points');
  if (x <= first[0]) return first[1];
  if (x >= last[0]) return last[1];
  const upper = curve.findIndex(([at]) => at >= x);
  const [x0, y0] = curve[upper - 1] ?? first;
  const [x1, y1] = curve[upper] ?? last;
  return y0 + ((y1 - y0) * (x - x0)) / (x1 - x0);
}

export const clamp = (value: number, low: number, high: number): number =>
  Math.min(Math.max(value, low), high);

/** 0 at `from`, 1 at `to` (which may lie below `from`), straight between. */
export const ramp = (value: number, from: number, to: number): number =>
  clamp((value - from) / (to - from), 0, 1);

/** 0 outside, 1 between the two best values, straight on both flanks. */
export const window = (value: number, min: number, bestFrom: number, bestTo: number, max: number): number =>
  Math.min(ramp(value, min, bestFrom), ramp(value, max, bestTo));
