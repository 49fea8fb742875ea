/** One value per hour and variable, from the best source that has it. */
import type { Observation, ObservationKind, RecordView, Variable } from '../record/types.ts';
import { HOUR_MS } from '../units/calendar.ts';

export interface HourValue {
  readonly value: number;
  readonly kind: ObservationKind;
  readonly source: string;
  readonly station: string;
  readonly atMs: number;
  readonly issuedMs: number | null;
}

/** Hour end (epoch ms, whole hours) to value. */
export type HourSeries = ReadonlyMap<number, HourValue>;

// An instrument beats an analysis, an analysis a model's past, and that a forecast.
const RANK: Record<ObservationKind, number> = { observed: 0, analysis: 1, model: 2, forecast: 3 };

/** Rain and sunshine are sums or means of a period; the rest are instants, taken at the nearest hour. */
const PERIODIC: ReadonlySet<Variable> = new Set(['rain', 'shortwave']);

function hourOf(row: Observation): number {
  return PERIODIC.has(row.variable)
    ? Math.ceil(row.atMs / HOUR_MS) * HOUR_MS
    : Math.round(row.atMs / HOUR_MS) * HOUR_MS;
}

/**
 * Hourly series of a variable. Rain is the sum of the periods that end within the hour, longer periods spread evenly;
 * other variables are the mean of what falls nearest to the hour. Doubted values are left out.
 *
 * @param preference sources in order of the lake's preference: it decides between sources of the same kind
 */
export function hourly(view: RecordView, variable: Variable, preference: readonly string[] = []): HourSeries {
  const rankOf = (row: Observation): number => {
    const place = preference.indexOf(row.source);
    return RANK[row.kind] * 100 + (place < 0 ? 50 : place);
  };
  const cells = new Map<number, { rank: number; rows: { row: Observation; value: number }[] }>();
  const put = (hour: number, row: Observation, value: number): void => {
    const rank = rankOf(row);
    const cell = cells.get(hour);
    if (!cell || rank < cell.rank) cells.set(hour, { rank, rows: [{ row, value }] });
    else if (rank === cell.rank && (cell.rows[0]?.row.station ?? '') === row.station)
      cell.rows.push({ row, value });
  };
  for (const row of view.observations) {
    if (row.variable !== variable || row.doubt !== undefined) continue;
    const spanH = Math.max(1, Math.round(row.periodS / 3600));
    if (PERIODIC.has(variable) && spanH > 1) {
      for (let back = 0; back < spanH; back += 1)
        put(hourOf(row) - back * HOUR_MS, row, variable === 'rain' ? row.value / spanH : row.value);
    } else put(hourOf(row), row, row.value);
  }
  const series = new Map<number, HourValue>();
  for (const hour of [...cells.keys()].sort((a, b) => a - b)) {
    const cell = cells.get(hour);
    const first = cell?.rows[0];
    if (!cell || !first) continue;
    const total = cell.rows.reduce((sum, entry) => sum + entry.value, 0);
    const { kind, source, station, atMs, issuedMs } = first.row;
    series.set(hour, {
      value: variable === 'rain' ? total : total / cell.rows.length,
      kind,
      source,
      station,
      atMs,
      issuedMs,
    });
  }
  return series;
}

/** Values of the hours in (fromMs, toMs], oldest first. */
export function hoursWithin(series: HourSeries, fromMs: number, toMs: number): HourValue[] {
  const found: HourValue[] = [];
  for (let hour = Math.floor(fromMs / HOUR_MS) * HOUR_MS + HOUR_MS; hour <= toMs; hour += HOUR_MS) {
    const value = series.get(hour);
    if (value) found.push(value);
  }
  return found;
}
