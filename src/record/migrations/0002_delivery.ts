import { sql, type Kysely } from 'kysely';

/** Readers, outbox, runs, issued briefings, locks. */
export async function up(db: Kysely<unknown>): Promise<void> {
  for (const statement of STATEMENTS) await sql.raw(statement).execute(db);
}

const STATEMENTS = [
  `create table readers (
    id text primary key not null,
    address text not null unique,
    state text not null,
    origin text not null,
    units text not null,
    form text not null,
    days_mask integer not null,
    earliest_hour integer not null,
    amendments integer not null,
    tackle_json text,
    token_epoch integer not null,
    created_ms integer not null,
    confirmed_ms integer,
    left_ms integer
  ) strict`,
  `create table reader_lakes (
    reader_id text not null references readers(id) on delete cascade,
    lake_id text not null,
    primary key (lake_id, reader_id)
  ) strict, without rowid`,
  `create index reader_lakes_reader on reader_lakes(reader_id)`,
  `create table bounces (
    id integer primary key,
    reader_id text not null references readers(id) on delete cascade,
    kind text not null,
    utc_date text not null,
    at_ms integer not null
  ) strict`,
  `create unique index bounces_once_a_day on bounces(reader_id, kind, utc_date)`,
  `create table outbox (
    id integer primary key,
    lake_id text not null,
    local_date text not null,
    edition text not null,
    reader_id text not null,
    state text not null,
    attempts integer not null,
    next_attempt_ms integer not null,
    expires_ms integer not null,
    lease_owner text,
    lease_until_ms integer,
    created_ms integer not null,
    finished_ms integer,
    smtp_code integer,
    problem text
  ) strict`,
  // The promise "nobody gets it twice" is this index.
  `create unique index outbox_once on outbox(lake_id, local_date, edition, reader_id)`,
  `create index outbox_pending on outbox(next_attempt_ms, id) where state = 'pending'`,
  `create index outbox_sending on outbox(lease_until_ms) where state = 'sending'`,
  `create index outbox_reader on outbox(reader_id)`,
  `create table runs (
    lake_id text not null,
    local_date text not null,
    edition text not null,
    state text not null,
    owner text not null,
    lease_until_ms integer not null,
    attempts integer not null,
    due_ms integer not null,
    started_ms integer not null,
    finished_ms integer,
    safety_level integer,
    first_place text,
    problem text,
    primary key (lake_id, local_date, edition)
  ) strict, without rowid`,
  `create table refreshes (
    lake_id text primary key not null,
    at_ms integer not null,
    ok_ms integer,
    problem text
  ) strict, without rowid`,
  `create table briefings (
    lake_id text not null,
    local_date text not null,
    edition text not null,
    issued_ms integer not null,
    document_json text not null,
    primary key (lake_id, local_date, edition)
  ) strict`,
  `create table renderings (
    lake_id text not null,
    local_date text not null,
    edition text not null,
    units text not null,
    form text not null,
    body blob not null,
    primary key (lake_id, local_date, edition, units, form)
  ) strict`,
  `create table delivery_state (
    key text primary key not null,
    value_json text not null,
    at_ms integer not null
  ) strict, without rowid`,
  `create table locks (
    name text primary key not null,
    owner text not null,
    until_ms integer not null
  ) strict, without rowid`,
];
