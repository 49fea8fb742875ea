import type { Observation } from '../types.ts';
import { HOUR_MS } from '../../units/time/index.ts';

/** Thermometer before analysis before model. */
const RANK = { observed: 0, analysis: 1, model: 2, forecast: 3 } as const;

/** Air temperature to the hour from the best series a lake has; later ones fill what earlier ones lack. */
export function airAround(series: readonly (readonly Observation[])[]): (atMs: number) => number | undefined {
  const hourly = new Map<number, number>();
  const air = series
    .filter((rows) => rows[0]?.variable === 'air_temp' && rows[0].kind !== 'forecast')
    .sort((a, b) => RANK[a[0]?.kind ?? 'model'] - RANK[b[0]?.kind ?? 'model']);
  for (const rows of air) {
    for (const row of rows) {
      const hour = Math.round(row.atMs / HOUR_MS);
      if (row.doubt === undefined && !hourly.has(hour)) hourly.set(hour, row.value);
    }
  }
  return (atMs) => hourly.get(Math.round(atMs / HOUR_MS));
}
