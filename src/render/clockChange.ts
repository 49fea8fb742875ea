import { addDays, DAY_MS, instantOf } from '../units/time/index.ts';

/** How far the clocks of a zone go forward on a local date, ms: negative where they go back, 0 on most days. */
export const clocksForwardMs = (date: string, zone: string): number =>
  DAY_MS - (instantOf(addDays(date, 1), '00:00', zone) - instantOf(date, '00:00', zone));
