/**
 * The tables of the record, described once: PostgreSQL's are made from this, and a test holds what SQLite's steps have
 * made against it. A step that changes a table changes it here too, and says in its own words what both databases do.
 */
import { WORK_TABLES } from './work.ts';

/** No record in PostgreSQL is older than this step of the schema. */
export const FIRST_STEP = 3;

/** `id`: a number the database gives; `whole`: any whole number, an instant in epoch ms among them; `flag`: 0 or 1. */
export type ColumnKind = 'id' | 'whole' | 'flag' | 'real' | 'text' | 'bytes';

export interface TableDescription {
  /** A `?` behind the kind: may be null. */
  readonly columns: Readonly<Record<string, ColumnKind | `${ColumnKind}?`>>;
  readonly key: readonly string[];
  readonly unique?: readonly (readonly string[])[];
  readonly indexes?: Readonly<Record<string, { readonly on: readonly string[]; readonly where?: string }>>;
  /** Column that refers to another table's `id`; rows go with what they refer to. */
  readonly belongsTo?: Readonly<Record<string, string>>;
  /** The column of epoch ms by whose month the rows are kept apart, where the database can. */
  readonly byMonthOf?: string;
  /** The step of the schema that it came with; the first where it is left out. */
  readonly since?: number;
  /**
   * Only of use where many processes share a server, and of minutes: a file has no such table, a copy leaves it out, and
   * what a crash of the server takes of it is not missed.
   */
  readonly shared?: true;
}

export const TABLES: Readonly<Record<string, TableDescription>> = {
  series: {
    columns: {
      id: 'id',
      lake: 'text',
      variable: 'text',
      source: 'text',
      station: 'text',
      kind: 'text',
      period_s: 'whole',
      datum: 'text',
    },
    key: ['id'],
    unique: [['lake', 'variable', 'source', 'station', 'kind', 'period_s', 'datum']],
  },
  observation: {
    columns: {
      series_id: 'whole',
      at_ms: 'whole',
      known_s: 'whole',
      value: 'real',
      provisional: 'flag?',
      qualifiers: 'text?',
      doubt: 'text?',
      known_how: 'flag?',
    },
    key: ['series_id', 'at_ms', 'known_s'],
    belongsTo: { series_id: 'series' },
    byMonthOf: 'at_ms',
  },
  forecast: {
    columns: { series_id: 'whole', issued_ms: 'whole', at_ms: 'whole', known_s: 'whole', value: 'real' },
    key: ['series_id', 'issued_ms', 'at_ms', 'known_s'],
    belongsTo: { series_id: 'series' },
  },
  reading: {
    columns: {
      id: 'text',
      known_ms: 'whole',
      lake: 'text',
      at_ms: 'whole',
      water_c: 'real?',
      clarity_m: 'real?',
      depth_m: 'real',
      sd_c: 'real',
      place: 'text',
      pocket: 'text?',
      known_how: 'flag?',
    },
    key: ['id', 'known_ms'],
    indexes: { reading_by_time: { on: ['lake', 'at_ms'] } },
  },
  alert_check: { columns: { lake: 'text', checked_ms: 'whole' }, key: ['lake', 'checked_ms'] },
  alert: {
    columns: {
      lake: 'text',
      id: 'text',
      first_seen_ms: 'whole',
      last_seen_ms: 'whole',
      issuer: 'text',
      event: 'text',
      severity: 'text',
      headline: 'text',
      description: 'text',
      instruction: 'text',
      onset_ms: 'whole?',
      ends_ms: 'whole?',
      expires_ms: 'whole?',
      url: 'text?',
    },
    key: ['lake', 'id', 'first_seen_ms'],
    indexes: { alert_by_time: { on: ['lake', 'last_seen_ms'] } },
  },
  flood: {
    columns: {
      lake: 'text',
      station: 'text',
      at_ms: 'whole',
      known_ms: 'whole',
      observed: 'text',
      forecast: 'text',
      thresholds_m: 'text',
    },
    key: ['lake', 'station', 'at_ms', 'known_ms'],
  },
  retrieval: {
    columns: {
      id: 'id',
      lake: 'text',
      source: 'text',
      at_ms: 'whole',
      ok: 'flag',
      status: 'whole?',
      duration_ms: 'real',
      bytes: 'whole',
      problem: 'text',
    },
    key: ['id'],
    indexes: { retrieval_by_time: { on: ['lake', 'at_ms'] } },
  },
  validator: {
    columns: { url: 'text', etag: 'text?', last_modified: 'text?', set_ms: 'whole' },
    key: ['url'],
  },
  readers: {
    columns: {
      id: 'text',
      address: 'text',
      state: 'text',
      origin: 'text',
      units: 'text',
      form: 'text',
      days_mask: 'whole',
      earliest_hour: 'whole',
      amendments: 'flag',
      tackle_json: 'text?',
      token_epoch: 'whole',
      created_ms: 'whole',
      confirmed_ms: 'whole?',
      left_ms: 'whole?',
      language: 'text?',
      fishing: 'text?',
      asks_reading: 'flag?',
      gone_state: 'text?',
    },
    key: ['id'],
    unique: [['address']],
  },
  reader_lakes: {
    columns: { reader_id: 'text', lake_id: 'text' },
    key: ['lake_id', 'reader_id'],
    indexes: { reader_lakes_reader: { on: ['reader_id'] } },
    belongsTo: { reader_id: 'readers' },
  },
  bounces: {
    columns: { id: 'id', reader_id: 'text', kind: 'text', utc_date: 'text', at_ms: 'whole' },
    key: ['id'],
    unique: [['reader_id', 'kind', 'utc_date']],
    belongsTo: { reader_id: 'readers' },
  },
  outbox: {
    columns: {
      id: 'id',
      lake_id: 'text',
      local_date: 'text',
      edition: 'text',
      reader_id: 'text',
      state: 'text',
      attempts: 'whole',
      next_attempt_ms: 'whole',
      expires_ms: 'whole',
      lease_owner: 'text?',
      lease_until_ms: 'whole?',
      created_ms: 'whole',
      finished_ms: 'whole?',
      smtp_code: 'whole?',
      problem: 'text?',
    },
    key: ['id'],
    unique: [['lake_id', 'local_date', 'edition', 'reader_id']],
    indexes: {
      outbox_pending: { on: ['next_attempt_ms', 'id'], where: "state = 'pending'" },
      outbox_sending: { on: ['lease_until_ms'], where: "state = 'sending'" },
      outbox_reader: { on: ['reader_id'] },
    },
  },
  runs: {
    columns: {
      lake_id: 'text',
      local_date: 'text',
      edition: 'text',
      state: 'text',
      owner: 'text',
      lease_until_ms: 'whole',
      attempts: 'whole',
      due_ms: 'whole',
      started_ms: 'whole',
      finished_ms: 'whole?',
      safety_level: 'whole?',
      first_place: 'text?',
      problem: 'text?',
    },
    key: ['lake_id', 'local_date', 'edition'],
  },
  refreshes: {
    columns: { lake_id: 'text', at_ms: 'whole', ok_ms: 'whole?', problem: 'text?' },
    key: ['lake_id'],
  },
  briefings: {
    columns: {
      lake_id: 'text',
      local_date: 'text',
      edition: 'text',
      issued_ms: 'whole',
      document_json: 'text',
    },
    key: ['lake_id', 'local_date', 'edition'],
  },
  renderings: {
    columns: {
      lake_id: 'text',
      local_date: 'text',
      edition: 'text',
      units: 'text',
      form: 'text',
      body: 'bytes',
    },
    key: ['lake_id', 'local_date', 'edition', 'units', 'form'],
  },
  outing: {
    columns: {
      id: 'text',
      reader_id: 'text',
      lake: 'text',
      local_date: 'text',
      from_minute: 'whole?',
      to_minute: 'whole?',
      hours: 'real',
      places_json: 'text',
      lures_json: 'text',
      bites: 'whole?',
      fish: 'whole',
      biggest_m: 'real?',
      biggest_kg: 'real?',
      water_c: 'real?',
      water_depth_m: 'real?',
      clarity_m: 'real?',
      reading_id: 'text?',
      plan: 'text?',
      note: 'text',
      shared: 'flag',
      told_ms: 'whole',
    },
    key: ['id'],
    indexes: {
      outing_by_lake: { on: ['lake', 'local_date'] },
      outing_by_reader: { on: ['reader_id', 'local_date'] },
    },
    belongsTo: { reader_id: 'readers' },
    since: 4,
  },
  told_release: {
    columns: {
      id: 'text',
      known_ms: 'whole',
      lake: 'text',
      from_ms: 'whole',
      to_ms: 'whole',
      flow_m3s: 'real?',
      units: 'whole?',
      gone: 'flag',
    },
    key: ['id', 'known_ms'],
    indexes: { told_release_by_time: { on: ['lake', 'to_ms'] } },
    since: 5,
  },
  own_renderings: {
    columns: {
      lake_id: 'text',
      local_date: 'text',
      edition: 'text',
      units: 'text',
      form: 'text',
      own: 'text',
      body: 'bytes',
    },
    key: ['lake_id', 'local_date', 'edition', 'units', 'form', 'own'],
    since: 7,
  },
  outlook: {
    columns: {
      lake_id: 'text',
      local_date: 'text',
      lead_days: 'whole',
      issued_ms: 'whole',
      water_c: 'real',
      half_c: 'real',
    },
    key: ['lake_id', 'local_date', 'lead_days'],
    since: 9,
  },
  kept_shape: {
    columns: { lake: 'text', part: 'text', key: 'text', body_json: 'text' },
    key: ['lake', 'part'],
    since: 10,
  },
  stays_away: { columns: { hash: 'text', said: 'text', at_ms: 'whole' }, key: ['hash'], since: 11 },
  delivery_state: { columns: { key: 'text', value_json: 'text', at_ms: 'whole' }, key: ['key'] },
  locks: { columns: { name: 'text', owner: 'text', until_ms: 'whole' }, key: ['name'] },
  ...WORK_TABLES,
};
