import type { ClockSpan } from './types.ts';

/** Local times of a zone: `HH:MM`, and the decimal hour. */
export interface LocalClock {
  readonly at: (atMs: number) => string;
  readonly hour: (atMs: number) => number;
}

const clocks = new Map<string, LocalClock>();

/** The clock of a zone; kept, for making one is slow. */
export function clockOf(zone: string): LocalClock {
  const kept = clocks.get(zone);
  if (kept !== undefined) return kept;
  const at = zone === 'UTC' ? utc : formatted(zone);
  const clock: LocalClock = {
    at,
    hour: (atMs) => {
      const [hours, minutes] = at(atMs).split(':');
      return Number(hours) + Number(minutes) / 60;
    },
  };
  clocks.set(zone, clock);
  return clock;
}

const utc = (atMs: number): string => new Date(atMs).toISOString().slice(11, 16);

function formatted(zone: string): (atMs: number) => string {
  const format = new Intl.DateTimeFormat('en-GB', {
    timeZone: zone,
    hour: '2-digit',
    minute: '2-digit',
    hourCycle: 'h23',
  });
  return (atMs) => format.format(atMs);
}

/** A stretch with its local times. */
export function spanOf(fromMs: number, toMs: number, clock: LocalClock): ClockSpan {
  return { fromMs, toMs, from: clock.at(fromMs), to: clock.at(toMs) };
}
