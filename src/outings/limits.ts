/** What an outing can be. Beyond it a number is a slip of the pen or of the unit, and is asked about, not stored. */
export const LIMITS = {
  /** Hours fished on one day. Common practice, no source. */
  hours: 18,
  /** Fish and bites of one outing. Common practice, no source. */
  fish: 300,
  bites: 1000,
  /** A boat in a school takes twenty or thirty bass an hour for a while. Common practice, no source. */
  fishPerH: 40,
  /** The heaviest black bass on record weighs 10.1 kg, 22 lb 4 oz (from memory); nothing above it is taken. */
  biggestKg: 10.2,
  /** Common practice, no source. */
  biggestM: 0.85,
  leastBiggestM: 0.05,
  leastBiggestKg: 0.01,
  /** Liquid surface water, degC; a little below 0 for a thermometer's own error. As for readings. */
  waterC: { low: -0.5, high: 38 },
  depthM: 60,
  clarityM: { low: 0.03, high: 15 },
  noteCharacters: 1000,
  places: 8,
  lures: 8,
  /** No outing is older, days: nobody can say how many hours they fished ten years ago. Common practice, no source. */
  oldestDays: 3660,
} as const;

/** Depth of a thermometer that nobody gave, and its standard error, as `reading add` takes them. */
export const USUAL = { depthM: 0.3, sdC: 0.5, noonMinute: 720 } as const;

/**
 * Decimals that are kept, SI: more than any scale, ruler or thermometer on a boat has, and few enough that a table taken
 * out and read again says the same.
 */
export const DECIMALS = { hours: 4, kg: 4, m: 4, waterC: 3 } as const;
