/** A year of daily levels, and how finer values become days: a year costs 365 rows. */
import type { Observation } from '../record/index.ts';
import { DAY_MS } from '../units/time/index.ts';

export const YEAR_DAYS = 366;

/** Means over whole UTC days; the days at both ends may be cut and are left out. */
export function dailyMeans(rows: readonly Observation[]): Observation[] {
  const days = new Map<number, Observation[]>();
  for (const row of rows) {
    const day = Math.floor(row.atMs / DAY_MS);
    const list = days.get(day);
    if (list === undefined) days.set(day, [row]);
    else list.push(row);
  }
  return [...days.entries()]
    .sort(([a], [b]) => a - b)
    .slice(1, -1)
    .flatMap(([day, list]) => {
      const [first] = list;
      if (first === undefined) return [];
      const { lake, variable, source, station, kind, issuedMs, datum } = first;
      return [
        {
          lake,
          variable,
          source,
          station: `${station}/daily`,
          kind,
          atMs: (day + 1) * DAY_MS,
          periodS: DAY_MS / 1000,
          value: list.reduce((sum, row) => sum + row.value, 0) / list.length,
          issuedMs,
          provisional: true,
          ...(datum === undefined ? {} : { datum }),
        },
      ];
    });
}
