/** Half of 90 % lies within this many standard deviations of the middle, from the normal distribution. */
const Z90 = 1.644853627;

/**
 * Score interval of a proportion.
 *
 * @param hits how often it happened, 0 to `n`
 * @param n    how often it could have happened, 1 or more
 * @param z    standard score of the wanted confidence; left out, 90 %
 * @returns lower and upper end, shares between 0 and 1
 * @throws RangeError without cases or with more hits than cases
 * @see Wilson (1927), J. Amer. Stat. Assoc. 22, 209
 * @example wilson(18, 22) // [0.651, 0.916]
 */
export function wilson(hits: number, n: number, z = Z90): [low: number, high: number] {
  if (!(n >= 1 && hits >= 0 && hits <= n))
    throw new RangeError(`a proportion needs 0 to n hits of 1 case or more, got ${hits} of ${n}`);
  const share = hits / n;
  const squared = z ** 2;
  const middle = share + squared / (2 * n);
  const reach = z * Math.sqrt((share * (1 - share)) / n + squared / (4 * n ** 2));
  const whole = 1 + squared / n;
  // Rounding must not leave the ends of the scale.
  return [Math.max(0, (middle - reach) / whole), Math.min(1, (middle + reach) / whole)];
}
