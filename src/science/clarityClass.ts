export type ClarityClass = 'clear' | 'stained' | 'muddy' | 'very-muddy';

/** Lower bounds in Secchi depth, m: about 5 ft, 2 ft and 1 ft. Common practice, no source. */
const CLEAR_M = 1.5;
const STAINED_M = 0.6;
const MUDDY_M = 0.3;

/** Class of a Secchi depth, m above 0. */
export function classOf(secchiM: number): ClarityClass {
  if (secchiM >= CLEAR_M) return 'clear';
  if (secchiM >= STAINED_M) return 'stained';
  return secchiM >= MUDDY_M ? 'muddy' : 'very-muddy';
}
