import type { Observation } from '../../src/record/index.ts';
import { DAY, HOUR, row, START } from './rows.ts';

export const BATCH_HOURS = 24;
export const BATCH_SERIES = 4;
export const BATCH_ROWS = BATCH_HOURS * BATCH_SERIES;

/** Day number n of four series, as one reply of a service would bring it. Every value is n. */
export function batch(n: number): Observation[] {
  return Array.from({ length: BATCH_ROWS }, (_, i) =>
    row({
      station: `S${i % BATCH_SERIES}`,
      variable: 'discharge',
      atMs: START + n * DAY + Math.floor(i / BATCH_SERIES) * HOUR,
      value: n,
    }),
  );
}
