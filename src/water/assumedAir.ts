/** What lake and river assume of air temperatures that are missing or only forecast. */

/** Longest run of days without air that is bridged; a longer one has no estimate and restarts the free run. */
export const LONGEST_BRIDGED_GAP_DAYS = 10;

/**
 * Standard error of a forecast day's mean air temperature, K: 1.5 K and 0.3 K more a day. Set so that a shallow
 * reservoir with daily readings comes near the published 1.13 K of water at 7 and 1.62 K at 16 days.
 *
 * @param leadDays 1 for the first forecast day
 * @see Thomas et al. (2020), Water Resour. Res. 56, e2019WR026138 (article number from memory)
 */
export function forecastAirSdC(leadDays: number): number {
  return 1.5 + 0.3 * leadDays;
}
