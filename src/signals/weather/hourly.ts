/** One value per hour and variable, from the best source that has it. */
import type { ObservationKind, RecordView, Variable } from '../../record/index.ts';
import { HOUR_MS } from '../../units/time/index.ts';
import { at } from '../../water/index.ts';
import { columnsOf, type Column } from '../columns.ts';

/** How the value of an hour is known. */
export interface HourOrigin {
  readonly kind: ObservationKind;
  readonly source: string;
  readonly issuedMs: number | null;
  /** Length of the period that a value stands for, up to its stamp; 0 for an instant. */
  readonly periodS: number;
}

export interface HourSum {
  readonly count: number;
  readonly sum: number;
  /** Infinity and -Infinity where there is no value. */
  readonly least: number;
  readonly most: number;
}

/** Values by hour without a gap in the count: a hole is NaN. Hours are told by their ends, epoch ms, whole hours. */
export class HourSeries {
  static readonly EMPTY = new HourSeries(
    0,
    new Float64Array(0),
    new Float64Array(0),
    new Float64Array(0),
    [],
  );

  constructor(
    /** End of the first hour; it has a value, and so has the last. */
    readonly firstMs: number,
    private readonly values: Float64Array,
    /** Instant of the row that each value is from. */
    private readonly stamps: Float64Array,
    private readonly origin: Float64Array,
    private readonly origins: readonly HourOrigin[],
  ) {}

  get isEmpty(): boolean {
    return this.values.length === 0;
  }

  /** End of the last hour; before the first where there is none. */
  get lastMs(): number {
    return this.firstMs + (this.values.length - 1) * HOUR_MS;
  }

  /** Value of the hour that ends at `endMs`; undefined where it is not known. */
  at(endMs: number): number | undefined {
    const value = this.values[Math.floor((endMs - this.firstMs) / HOUR_MS)];
    return value === undefined || Number.isNaN(value) ? undefined : value;
  }

  /** The hours that end at `endMs` or before. */
  until(endMs: number): HourSeries {
    const count = Math.max(0, Math.floor((endMs - this.firstMs) / HOUR_MS) + 1);
    let last = Math.min(count, this.values.length);
    while (last > 0 && Number.isNaN(at(this.values, last - 1))) last -= 1;
    if (last === 0) return HourSeries.EMPTY;
    const { firstMs, values, stamps, origin, origins } = this;
    return new HourSeries(
      firstMs,
      values.subarray(0, last),
      stamps.subarray(0, last),
      origin.subarray(0, last),
      origins,
    );
  }

  /** @returns undefined where the hour has no value */
  originAt(endMs: number): HourOrigin | undefined {
    const i = Math.floor((endMs - this.firstMs) / HOUR_MS);
    return this.at(endMs) === undefined ? undefined : this.origins[at(this.origin, i)];
  }

  /** Instant of the row that an hour's value is from, epoch ms. */
  stampAt(endMs: number): number | undefined {
    return this.at(endMs) === undefined
      ? undefined
      : at(this.stamps, Math.floor((endMs - this.firstMs) / HOUR_MS));
  }

  /** Ends of the hours in (fromMs, toMs] that have a value, oldest first. */
  endsWithin(fromMs: number, toMs: number): number[] {
    const ends: number[] = [];
    const last = Math.min(toMs, this.lastMs);
    for (let end = Math.max(firstEndAfter(fromMs), this.firstMs); end <= last; end += HOUR_MS)
      if (this.at(end) !== undefined) ends.push(end);
    return ends;
  }

  /** Calls with each value of the hours that end in (fromMs, toMs], and with that end, oldest first. */
  eachWithin(fromMs: number, toMs: number, call: (value: number, endMs: number) => void): void {
    const [first, last] = this.placesWithin(fromMs, toMs);
    for (let i = first; i <= last; i += 1) {
      const value = at(this.values, i);
      if (!Number.isNaN(value)) call(value, this.firstMs + i * HOUR_MS);
    }
  }

  /** How many hours that end in (fromMs, toMs] have a value, their sum, and the least and the most of them. */
  sumWithin(fromMs: number, toMs: number): HourSum {
    let [count, sum, least, most] = [0, 0, Infinity, -Infinity];
    const [first, last] = this.placesWithin(fromMs, toMs);
    for (let i = first; i <= last; i += 1) {
      const value = at(this.values, i);
      if (Number.isNaN(value)) continue;
      count += 1;
      sum += value;
      if (value < least) least = value;
      if (value > most) most = value;
    }
    return { count, sum, least, most };
  }

  private placesWithin(fromMs: number, toMs: number): readonly [number, number] {
    return [
      Math.max(0, Math.round((firstEndAfter(fromMs) - this.firstMs) / HOUR_MS)),
      Math.min(this.values.length - 1, Math.floor((toMs - this.firstMs) / HOUR_MS)),
    ];
  }

  /** Values of the hours that end in (fromMs, toMs], oldest first. */
  within(fromMs: number, toMs: number): number[] {
    const found: number[] = [];
    const [first, last] = this.placesWithin(fromMs, toMs);
    for (let i = first; i <= last; i += 1) {
      const value = at(this.values, i);
      if (!Number.isNaN(value)) found.push(value);
    }
    return found;
  }
}

const firstEndAfter = (fromMs: number): number => Math.floor(fromMs / HOUR_MS) * HOUR_MS + HOUR_MS;

// An instrument beats an analysis, an analysis a model's past, and that a forecast.
const RANK: Record<ObservationKind, number> = { observed: 0, analysis: 1, model: 2, forecast: 3 };

/** Rain and sunshine are sums or means of a period; the rest are instants, taken at the nearest hour. */
const PERIODIC: ReadonlySet<Variable> = new Set(['rain', 'shortwave']);

const hourOf = (variable: Variable, atMs: number): number =>
  PERIODIC.has(variable) ? Math.ceil(atMs / HOUR_MS) : Math.round(atMs / HOUR_MS);

/**
 * Hourly series of a variable. Rain is the sum of the periods that end within the hour, longer periods spread evenly;
 * other variables are the mean of what falls nearest to the hour. Doubted values are left out.
 *
 * @param preference sources in order of the lake's preference: it decides between sources of the same kind
 * @param kinds      only values known in these ways; all of them unless told
 */
export function hourly(
  view: RecordView,
  variable: Variable,
  preference: readonly string[] = [],
  kinds?: readonly ObservationKind[],
): HourSeries {
  const rankOf = ({ source, kind }: Column): number => {
    const place = preference.indexOf(source);
    return RANK[kind] * 100 + (place < 0 ? 50 : place);
  };
  const columns = columnsOf(view)
    .of(variable)
    .filter(({ kind, atMs }) => atMs.length > 0 && (kinds === undefined || kinds.includes(kind)))
    .map((column) => ({ column, rank: rankOf(column) }))
    .sort((a, b) => a.rank - b.rank);
  if (columns.length === 0) return HourSeries.EMPTY;
  const spanOf = ({ periodS }: Column): number =>
    PERIODIC.has(variable) ? Math.max(1, Math.round(periodS / 3600)) : 1;
  const first = Math.min(
    ...columns.map(({ column }) => hourOf(variable, at(column.atMs, 0)) - spanOf(column) + 1),
  );
  const last = Math.max(
    ...columns.map(({ column }) => hourOf(variable, at(column.atMs, column.atMs.length - 1))),
  );
  const count = last - first + 1;
  const sums = new Float64Array(count);
  const rows = new Float64Array(count);
  const stamps = new Float64Array(count);
  const origin = new Float64Array(count);
  columns.forEach(({ column, rank }, place) => {
    const { atMs, values } = column;
    const span = spanOf(column);
    for (let k = 0; k < atMs.length; k += 1) {
      const stamp = at(atMs, k);
      const end = hourOf(variable, stamp) - first;
      const value = span > 1 && variable === 'rain' ? at(values, k) / span : at(values, k);
      for (let hour = end; hour > end - span; hour -= 1) {
        if (at(rows, hour) === 0) {
          origin[hour] = place;
          stamps[hour] = stamp;
        } else {
          // A better series, or another station's, has the hour already.
          const owner = columns[at(origin, hour)];
          if (owner?.rank !== rank || owner.column.station !== column.station) continue;
        }
        sums[hour] = at(sums, hour) + value;
        rows[hour] = at(rows, hour) + 1;
      }
    }
  });
  for (let hour = 0; hour < count; hour += 1) {
    const of = at(rows, hour);
    if (of === 0) sums[hour] = Number.NaN;
    else if (variable !== 'rain') sums[hour] = at(sums, hour) / of;
  }
  const origins = columns.map(({ column: { kind, source, issuedMs, periodS } }) => ({
    kind,
    source,
    issuedMs,
    periodS,
  }));
  return new HourSeries(first * HOUR_MS, sums, stamps, origin, origins);
}
