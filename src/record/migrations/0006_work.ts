import { sql, type Kysely } from 'kysely';

/**
 * What processes must tell each other, and what failed for good. A file has one web process as a rule: how often visitors
 * ask stays in its memory, and only a server has a table for it.
 */
export async function work(db: Kysely<unknown>): Promise<void> {
  for (const statement of STATEMENTS) await sql.raw(statement).execute(db);
}

const STATEMENTS = [
  `create table bounce_reports (
    id text primary key not null,
    reader_id text not null references readers(id) on delete cascade,
    kind text not null,
    at_ms integer not null,
    attempts integer not null,
    next_ms integer not null,
    problem text,
    handled_ms integer
  ) strict`,
  `create index bounce_reports_open on bounce_reports(next_ms) where handled_ms is null`,
  `create index bounce_reports_reader on bounce_reports(reader_id)`,
  `create table failures (
    id integer primary key,
    queue text not null,
    key text not null,
    attempts integer not null,
    first_ms integer not null,
    last_ms integer not null,
    next_ms integer not null,
    problem text not null
  ) strict`,
  `create unique index failures_once on failures(queue, key)`,
];
