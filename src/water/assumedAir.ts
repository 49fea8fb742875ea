/** What lake and river assume of air temperatures that are missing or only forecast. */

/** Longest run of days without air that is bridged; a longer one has no estimate and restarts the free run. */
export const LONGEST_BRIDGED_GAP_DAYS = 10;

/** Spread of daily air about its usual value where nothing is known of it, K, and days over which it is learned. */
const USUAL_SPREAD_C = 4;
const SPREAD_DAYS = 45;

/** Learns how far the air of a place departs from its usual value at this time of the year. */
export class AirSpread {
  private variance = USUAL_SPREAD_C ** 2;

  /** @param departureC air minus what is usual, K */
  learn(departureC: number): void {
    this.variance += (departureC ** 2 - this.variance) / SPREAD_DAYS;
  }

  /** K */
  get sdC(): number {
    return Math.sqrt(this.variance);
  }
}

/**
 * Standard error of a forecast day's mean air temperature, K: a share of the spread of the air about its usual value,
 * that grows with the lead until the forecast knows no more than the season.
 *
 * @param leadDays 1 for the first forecast day
 * @param spreadC  spread of daily air about its usual value, K
 * @see `bench/outlook.ts`: fitted to one half of 480 archived issues, judged on the other
 */
export function forecastAirSdC(leadDays: number, spreadC: number): number {
  return spreadC * Math.min(1.4, 0.26 + 0.085 * leadDays);
}
