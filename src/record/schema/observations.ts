import type { Generated } from 'kysely';
import type { ObservationKind, Variable } from '../types.ts';

/** One row per series; values refer to it by number, so that ten years of hours stay small. */
export interface SeriesTable {
  id: Generated<number>;
  lake: string;
  variable: Variable;
  source: string;
  station: string;
  kind: ObservationKind;
  period_s: number;
  /** '' when the series has none. */
  datum: string;
}

/** Null: noted when it came. 1: nobody noted it, its own instant is taken. 2: came long after its instant, as archives do. */
export type KnownHow = 1 | 2;

/** Measured, analysed or modelled past values. */
export interface ObservationTable {
  series_id: number;
  at_ms: number;
  /** Whole seconds after `at_ms` at which the value was known; a revision is a row of its own. */
  known_s: number;
  value: number;
  provisional: number | null;
  /** JSON array of the service's own marks. */
  qualifiers: string | null;
  /** Doubt that the service itself stated, as JSON; the program's own quality control is applied when reading. */
  doubt: string | null;
  known_how: KnownHow | null;
}

export interface ForecastTable {
  series_id: number;
  issued_ms: number;
  at_ms: number;
  /** Whole seconds after `issued_ms`. */
  known_s: number;
  value: number;
}

export interface ReadingTable {
  id: string;
  known_ms: number;
  lake: string;
  at_ms: number;
  water_c: number | null;
  clarity_m: number | null;
  depth_m: number;
  sd_c: number;
  place: string;
  pocket: string | null;
  known_how: KnownHow | null;
}

export interface AlertCheckTable {
  lake: string;
  checked_ms: number;
}

export interface AlertTable {
  lake: string;
  id: string;
  first_seen_ms: number;
  last_seen_ms: number;
  issuer: string;
  event: string;
  severity: string;
  headline: string;
  description: string;
  instruction: string;
  onset_ms: number | null;
  ends_ms: number | null;
  expires_ms: number | null;
  url: string | null;
}

export interface FloodTable {
  lake: string;
  station: string;
  at_ms: number;
  known_ms: number;
  observed: string;
  forecast: string;
  /** JSON object: category -> stage in m. */
  thresholds_m: string;
}

export interface RetrievalTable {
  id: Generated<number>;
  lake: string;
  source: string;
  at_ms: number;
  ok: number;
  status: number | null;
  duration_ms: number;
  bytes: number;
  problem: string;
}

export interface ValidatorTable {
  url: string;
  etag: string | null;
  last_modified: string | null;
  set_ms: number;
}

export interface ObservationTables {
  series: SeriesTable;
  observation: ObservationTable;
  forecast: ForecastTable;
  reading: ReadingTable;
  alert_check: AlertCheckTable;
  alert: AlertTable;
  flood: FloodTable;
  retrieval: RetrievalTable;
  validator: ValidatorTable;
}
