import { localHourAt } from '../../units/time/index.ts';
import type { ClockSpan } from './types.ts';

/** Local times of a zone: `HH:MM`, and the decimal hour. */
export interface LocalClock {
  readonly at: (atMs: number) => string;
  readonly hour: (atMs: number) => number;
}

/** The clock of a zone. */
export const clockOf = (zone: string): LocalClock => ({
  at: (atMs) => {
    const hour = localHourAt(atMs, zone);
    const minutes = Math.round((hour % 1) * 60);
    return `${twoDigits(Math.floor(hour))}:${twoDigits(minutes)}`;
  },
  hour: (atMs) => localHourAt(atMs, zone),
});

const twoDigits = (value: number): string => String(value).padStart(2, '0');

/** A stretch with its local times. */
export function spanOf(fromMs: number, toMs: number, clock: LocalClock): ClockSpan {
  return { fromMs, toMs, from: clock.at(fromMs), to: clock.at(toMs) };
}
