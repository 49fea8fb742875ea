/** Observations lie in a table a UTC month; a month is made when the first value of it comes. */
import { sql, type Kysely } from 'kysely';
import type { Database } from '../../schema/index.ts';
import { isPostgres } from '../which.ts';

/**
 * Makes the months that values of these instants need. It runs with the rights of who made the tables, so that a worker
 * needs none to make any. Who waited for the lock may still not see the table that its holder has made: what a name leads
 * to is remembered, and only a lock on a table or a schema brings it up to date. So the statement itself looks again.
 */
export const MONTHS_FUNCTION = `
  create or replace function observation_months(months text) returns void
  language plpgsql security definer set search_path from current as $$
  declare
    wanted bigint;
    month timestamp;
    part text;
  begin
    foreach wanted in array string_to_array(months, ',')::bigint[] loop
      month := timestamp '1970-01-01' + make_interval(secs => wanted / 1000);
      part := 'observation_y' || to_char(month, 'YYYY"m"MM');
      if to_regclass(quote_ident(part)) is null then
        perform pg_advisory_xact_lock(hashtext('observation_months'));
        if to_regclass(quote_ident(part)) is null then
          execute format(
            'create table if not exists %I partition of observation for values from (%s) to (%s)', part, wanted,
            (extract(epoch from month + interval '1 month') * 1000)::bigint);
        end if;
      end if;
    end loop;
  end $$`;

/** First instant of the UTC month, epoch ms. */
function monthOf(atMs: number): number {
  const at = new Date(atMs);
  return Date.UTC(at.getUTCFullYear(), at.getUTCMonth());
}

/** Does nothing on SQLite. */
export async function readyMonths(db: Kysely<Database>, instants: Iterable<number>): Promise<void> {
  if (!isPostgres(db)) return;
  const months = new Set<number>();
  for (const atMs of instants) months.add(monthOf(atMs));
  if (months.size > 0) await sql`select observation_months(${[...months].join(',')})`.execute(db);
}
