/** Standard deviations in the half-width of an 80 % interval of the normal distribution: `normalCdf(Z80)` is 0.9. */
export const Z80 = 1.2816;

/**
 * Standard normal distribution function.
 *
 * @param z  standard score, any finite number
 * @returns probability of a value below z; absolute error below 1e-9 (series and continued fraction)
 * @see Abramowitz and Stegun (1964), 26.2.11 and 26.2.14
 */
export function normalCdf(z: number): number {
  const x = Math.abs(z);
  const density = Math.exp((-x * x) / 2) / Math.sqrt(2 * Math.PI);
  if (x < 3.5) {
    let term = x;
    let sum = x;
    for (let k = 3; Math.abs(term) > 1e-17 * Math.abs(sum) && k < 400; k += 2) {
      term *= (x * x) / k;
      sum += term;
    }
    return z >= 0 ? 0.5 + density * sum : 0.5 - density * sum;
  }
  let tail = x;
  for (let k = 60; k >= 1; k--) tail = x + k / tail;
  const upper = density / tail;
  return z >= 0 ? 1 - upper : upper;
}
