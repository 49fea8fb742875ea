import { lookedBack } from '../lake/change.ts';
import type { LakeDay } from '../lake/types.ts';

/** Residence time at which a pool is half river, half lake, days (common practice, no source). */
const HALF_LAKE_DAYS = 10;
/** How far the share itself may be off in the middle, 80 % (common practice, no source). */
const SHARE_HALF_WIDTH = 0.3;

/**
 * Run-of-river pool between lake and river: each day the estimates are mixed by the time the water stays.
 *
 * @param lake result of the lake model for the pool's depth and area
 * @param river result of the river model for the inflow
 * @param residenceDays volume over discharge, days, above 0; infinite for a lake
 * @returns the days both have; the interval holds both estimates' own error and what a wrong share would do
 */
export function nowcastPool(
  lake: readonly LakeDay[],
  river: readonly LakeDay[],
  residenceDays: number,
): LakeDay[] {
  if (!(residenceDays > 0)) throw new RangeError('The residence time must be above 0 days.');
  const share = residenceDays === Infinity ? 1 : residenceDays / (residenceDays + HALF_LAKE_DAYS);
  const inflow = new Map(river.map((day) => [day.date, day]));
  return lake.flatMap((still) => {
    const moving = inflow.get(still.date);
    if (moving === undefined) return [];
    const mix = (a: number, b: number): number => share * a + (1 - share) * b;
    const waterC = mix(still.waterC, moving.waterC);
    const own = mix(still.highC - still.waterC, moving.highC - moving.waterC);
    const shareHalf = SHARE_HALF_WIDTH * 4 * share * (1 - share);
    const half = Math.hypot(own, shareHalf * (still.waterC - moving.waterC));
    const [stillAgain, movingAgain] = [lookedBack(still), lookedBack(moving)];
    const hindsight = {
      waterC: mix(stillAgain.waterC, movingAgain.waterC),
      halfC: Math.hypot(
        mix(stillAgain.halfC, movingAgain.halfC),
        shareHalf * (stillAgain.waterC - movingAgain.waterC),
      ),
    };
    return [
      {
        date: still.date,
        waterC,
        lowC: Math.max(0, waterC - half),
        highC: waterC + half,
        readingAgeDays: still.readingAgeDays ?? moving.readingAgeDays,
        freeC: mix(still.freeC, moving.freeC),
        leadDays: Math.max(still.leadDays, moving.leadDays),
        ...(still.hindsight === undefined && moving.hindsight === undefined ? {} : { hindsight }),
      },
    ];
  });
}
