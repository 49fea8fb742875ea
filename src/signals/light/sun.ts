/** The sun of a local date, and the fishing day that it bounds. */
import type { LakeConfig } from '../../config/index.ts';
import { addDays, HOUR_MS, startOfDayMs } from '../../units/time/index.ts';
import { sunTimes } from '../../science/index.ts';
import type { SignalReport } from '../types.ts';

/** Sun of a local date at the lake; null where it does not rise or set. */
export function sunOf(lake: LakeConfig, date: string): SignalReport['sun'] {
  const noon = startOfDayMs(date, lake.zone) + 12 * HOUR_MS;
  return sunTimes(lake.latDeg, lake.lonDeg, noon);
}

/** The fishing day: civil dawn to civil dusk, or the end of the date itself where it is light on that side of it. */
export function fishingDay(lake: LakeConfig, date: string): { dawnMs: number; duskMs: number } {
  const { dawnMs, duskMs } = sunOf(lake, date);
  return {
    dawnMs: dawnMs ?? startOfDayMs(date, lake.zone),
    duskMs: duskMs ?? startOfDayMs(addDays(date, 1), lake.zone),
  };
}

/** Ends of a local date's hours, epoch ms: 23, 24 or 25. */
export function hourEndsOf(date: string, zone: string): number[] {
  const to = startOfDayMs(addDays(date, 1), zone);
  const ends: number[] = [];
  for (let end = startOfDayMs(date, zone) + HOUR_MS; end <= to; end += HOUR_MS) ends.push(end);
  return ends;
}
