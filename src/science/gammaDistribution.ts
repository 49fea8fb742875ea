/** Logarithm of the gamma function for x > 0, relative error below 1e-13 (Lanczos, g = 7, nine terms). */
function logGamma(x: number): number {
  const t = x + 6.5;
  const sum = LANCZOS.reduce((all, c, k) => all + c / (x + k), 0.99999999999980993);
  return 0.5 * Math.log(2 * Math.PI) + (x - 0.5) * Math.log(t) - t + Math.log(sum);
}
const LANCZOS = [
  676.5203681218851, -1259.1392167224028, 771.32342877765313, -176.61502916214059, 12.507343278686905,
  -0.13857109526572012, 9.9843695780195716e-6, 1.5056327351493116e-7,
];

/** Regularised lower incomplete gamma function: series below the bend, continued fraction (Lentz) above it. */
function lowerShare(shape: number, x: number): number {
  if (x <= 0) return 0;
  const front = Math.exp(shape * Math.log(x) - x - logGamma(shape));
  if (x < shape + 1) {
    let term = 1 / shape;
    let sum = term;
    for (let k = 1; k < 10_000 && term > sum * 1e-16; k++) {
      term *= x / (shape + k);
      sum += term;
    }
    return front * sum;
  }
  const tiny = 1e-300;
  let b = x + 1 - shape;
  let c = 1 / tiny;
  let d = 1 / b;
  let h = d;
  for (let k = 1; k < 10_000; k++) {
    const a = -k * (k - shape);
    b += 2;
    d = 1 / (Math.abs(a * d + b) < tiny ? tiny : a * d + b);
    c = Math.abs(b + a / c) < tiny ? tiny : b + a / c;
    const step = d * c;
    h *= step;
    if (Math.abs(step - 1) < 1e-15) break;
  }
  return 1 - front * h;
}

/**
 * Distribution function of the gamma distribution with scale 1.
 *
 * @param shape above 0
 * @param x     0 or more
 * @returns probability of a value of at most x, 0 to 1; absolute error below 1e-10 for shapes up to 10,000
 * @throws RangeError when the shape is not above 0
 * @see Abramowitz and Stegun (1964), 6.5.29 (series) and 6.5.31 (continued fraction)
 */
export function gammaCdf(shape: number, x: number): number {
  if (!(shape > 0)) throw new RangeError(`a gamma distribution needs a shape above 0, got ${shape}`);
  return Math.min(1, Math.max(0, lowerShare(shape, x)));
}

/**
 * Quantile of the gamma distribution with scale 1, by bisection of its distribution function.
 *
 * @param shape above 0
 * @param share probability, above 0 and below 1
 * @returns the value below which that share lies; relative error below 1e-9
 * @throws RangeError outside the stated ranges
 * @example gammaQuantile(1, 0.5) // 0.6931, the logarithm of 2
 */
export function gammaQuantile(shape: number, share: number): number {
  if (!(share > 0 && share < 1))
    throw new RangeError(`a quantile needs a share between 0 and 1, got ${share}`);
  let low = 0;
  let high = Math.max(1, shape);
  while (gammaCdf(shape, high) < share) high *= 2;
  // Small shapes hold much of their share next to nothing: 1e-60 takes two hundred halvings to see, 1e-300 a thousand.
  for (let k = 0; k < 1_100 && high - low > 1e-11 * high; k++) {
    const middle = (low + high) / 2;
    if (gammaCdf(shape, middle) < share) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
