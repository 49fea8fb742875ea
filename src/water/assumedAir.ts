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
  return spreadC * Math.min(1.1, 0.18 + 0.06 * leadDays);
}

/** What the errors of neighbouring days of one forecast share, from the same issues. */
const ERROR_KEEP = 0.6;

/**
 * Variance that each forecast day adds to the water's error: errors of one forecast go the same way for days, so
 * that they add up in the water, which remembers.
 */
export class ForecastAirError {
  private lastSdC = 0;
  /** What the water's error and the newest error of the air share, K2. */
  private shared = 0;

  /**
   * @param airSdC standard error of the day's air, K
   * @param gain   response of the water to the day's air, K/K
   * @param keep   share of an error of the water that is left a day later
   * @returns K2
   */
  addedVar(airSdC: number, gain: number, keep: number): number {
    const carried = this.lastSdC === 0 ? 0 : ((ERROR_KEEP * airSdC) / this.lastSdC) * this.shared;
    this.lastSdC = airSdC;
    this.shared = keep * carried + gain * airSdC ** 2;
    return (gain * airSdC) ** 2 + 2 * keep * gain * carried;
  }
}
