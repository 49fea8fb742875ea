import { Duration } from 'luxon';
import { ThawlineError } from '../../units/index.ts';
import { ATTRIBUTIONS } from '../attributions.ts';
import { instantMs } from '../parse.ts';
import { HOUR_MS } from '../../units/time/index.ts';

/** The grid reaches some eight days ahead; a longer run is damage and would only fill memory. */
const LONGEST_MS = 16 * 24 * HOUR_MS;

/** Equal hours of the grid are merged into one run, `start/duration`. */
export interface Run {
  readonly startMs: number;
  readonly endMs: number;
  readonly value: number;
}

/** `2026-11-25T11:00:00+00:00/P1DT6H` to epoch ms. @throws ThawlineError when it is not such an interval */
export function interval(validTime: string): { startMs: number; endMs: number } {
  const [start, length] = validTime.split('/');
  const startMs = instantMs(start);
  const duration = Duration.fromISO(length ?? '');
  const lengthMs = duration.isValid ? duration.toMillis() : 0;
  if (startMs === null || !(lengthMs > 0) || lengthMs > LONGEST_MS) {
    throw new ThawlineError(
      'service',
      `${ATTRIBUTIONS.nws.name} sent a time span we cannot read; what holds it was not used.`,
    );
  }
  return { startMs, endMs: startMs + lengthMs };
}

/** The value at every full hour later than `fromMs`, as [instant, value]. */
export function expand(runs: readonly Run[], fromMs: number): [number, number][] {
  const hours: [number, number][] = [];
  for (const { startMs, endMs, value } of runs) {
    const first = Math.ceil(startMs / HOUR_MS) * HOUR_MS;
    for (let at = first; at < endMs; at += HOUR_MS) if (at > fromMs) hours.push([at, value]);
  }
  return hours;
}

/**
 * Totals of runs shared out over clock hours, as [end of hour, amount] for hours that end later than `fromMs`.
 * An hour that the runs do not cover wholly is left out: missing rain is not zero rain.
 */
export function prorate(runs: readonly Run[], fromMs: number): [number, number][] {
  const hours = new Map<number, { amount: number; coveredMs: number }>();
  for (const { startMs, endMs, value } of runs) {
    for (let at = Math.floor(startMs / HOUR_MS) * HOUR_MS; at < endMs; at += HOUR_MS) {
      const overlapMs = Math.min(endMs, at + HOUR_MS) - Math.max(startMs, at);
      const hour = hours.get(at) ?? { amount: 0, coveredMs: 0 };
      hour.amount += (value * overlapMs) / (endMs - startMs);
      hour.coveredMs += overlapMs;
      hours.set(at, hour);
    }
  }
  return [...hours]
    .filter(([at, hour]) => hour.coveredMs === HOUR_MS && at + HOUR_MS > fromMs)
    .map(([at, hour]): [number, number] => [at + HOUR_MS, hour.amount])
    .sort((a, b) => a[0] - b[0]);
}
