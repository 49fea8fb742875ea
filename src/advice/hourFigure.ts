import type { Figure } from '../signals/index.ts';

/** A number of one hour of the day, as it stands among the day's signals. */
export const hourFigure = (value: number, asOfMs: number): Figure => ({
  value,
  kind: 'forecast',
  asOfMs,
  freshness: 'fresh',
  source: { code: 'hour' },
});
