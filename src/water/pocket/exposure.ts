import { sunShare, type HorizonDeg } from '../../science/index.ts';
import type { PocketHour } from './types.ts';

/**
 * The hours of a pocket with the sunlight that its surroundings let through: straight from the sun while it stands above
 * the horizon, and from the sky by how much of it is seen.
 *
 * @param hours sun as on open ground
 * @param horizonDeg height of hills and trees in even directions from north with the sun, degrees
 * @returns the same hours with less sun, never with more
 */
export const shadedHours = (
  hours: readonly PocketHour[],
  site: { readonly latDeg: number; readonly lonDeg: number; readonly horizonDeg: HorizonDeg },
): PocketHour[] =>
  hours.map((hour) =>
    hour.shortwaveWm2 <= 0
      ? hour
      : {
          ...hour,
          shortwaveWm2: hour.shortwaveWm2 * Math.min(1, sunShare(site, hour.atMs, hour.shortwaveWm2)),
        },
  );
