import { expect, it } from 'vitest';
import { wilson } from '../../src/science/index.ts';

// Newcombe (1998), Statistics in Medicine 17, 857-872, Table I, method 3 (score method of Wilson 1927, 95 %).
const Z95 = 1.959964;
it.each([
  [81, 263, 0.2553, 0.3662],
  [15, 148, 0.0624, 0.1605],
  [0, 20, 0, 0.1611],
  [1, 29, 0.0061, 0.1718],
])('%i of %i lies between %f and %f as published', (hits, n, low, high) => {
  const [lower, upper] = wilson(hits, n, Z95);
  expect(Math.abs(lower - low)).toBeLessThanOrEqual(0.00005);
  expect(Math.abs(upper - high)).toBeLessThanOrEqual(0.00005);
});
