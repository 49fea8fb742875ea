/** The engine's jobs, whose tables lie beside the record in PostgreSQL. */
import { CompiledQuery, sql } from 'kysely';
import type { DeliveryRecord } from '../delivery/readers.ts';
import { isPostgres } from '../dialect/index.ts';
import { writing } from '../writing.ts';

/** Schema of the engine's own tables. */
export const JOBS_SCHEMA = 'thawline_jobs';

interface EngineDoor {
  executeSql(text: string, values: unknown[]): Promise<{ rows: unknown[] }>;
}

/** The engine's way into a step, as an option of its calls: what it asks for is kept or dropped together with the step. */
export const withinStep = ({ db }: DeliveryRecord): { readonly db: EngineDoor } => ({
  db: {
    executeSql: async (text, values) => {
      const { rows } = await db.executeQuery(CompiledQuery.raw(text, values));
      return { rows };
    },
  },
});

/** Makes the engine's tables, one process at a time: two at once would stand in each other's way. */
export const inTurn = ({ db }: DeliveryRecord, work: () => Promise<void>): Promise<void> =>
  writing(db, async (tx) => {
    await sql`select pg_advisory_xact_lock(hashtext('thawline job engine'))`.execute(tx);
    await work();
  });

export interface JobQueue {
  readonly queue: string;
  readonly waiting: number;
  readonly active: number;
  readonly failed: number;
  /** When the oldest waiting job was asked for; null when none waits. */
  readonly oldestMs: number | null;
}

/** Depth of each queue; none where there is no engine. */
export async function jobQueues({ db }: DeliveryRecord): Promise<JobQueue[]> {
  if (!isPostgres(db)) return [];
  const there = await sql<{ there: boolean }>`
    select to_regclass(${`${JOBS_SCHEMA}.job`}) is not null as there`.execute(db);
  if (there.rows[0]?.there !== true) return [];
  const { rows } = await sql<JobQueue>`
    select name as queue,
      count(*) filter (where state in ('created', 'retry')) as waiting,
      count(*) filter (where state = 'active') as active,
      count(*) filter (where state = 'failed') as failed,
      (extract(epoch from min(created_on) filter (where state in ('created', 'retry'))) * 1000)::bigint as "oldestMs"
    from ${sql.id(JOBS_SCHEMA, 'job')} group by name order by name`.execute(db);
  return rows;
}
