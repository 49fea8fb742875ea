/** Issued briefings and their renderings, kept as issued: a later change of rules never rewrites them. */
import { gunzipSync, gzipSync } from 'node:zlib';
import type { DeliveryRecord } from '../delivery/readers.ts';
import type { RunKey } from './runs.ts';
import type { Edition } from '../schema/delivery.ts';
import { writing } from '../writing.ts';
import { putOutlook } from './outlook.ts';

export interface StoredRendering {
  readonly units: 'us' | 'metric';
  readonly form: 'full' | 'short';
  /** JSON text of the rendered mail. */
  readonly json: string;
}

export interface ArchivedBriefing {
  readonly lakeId: string;
  readonly localDate: string;
  readonly edition: Edition;
  readonly issuedMs: number;
  readonly documentJson: string;
}

/** Stores a briefing with its renderings. Storing the same key again replaces both: only a run that was never issued is retried. */
export async function storeBriefing(
  { db }: DeliveryRecord,
  key: RunKey,
  briefing: { issuedMs: number; documentJson: string; renderings: readonly StoredRendering[] },
): Promise<void> {
  const id = { lake_id: key.lakeId, local_date: key.localDate, edition: key.edition };
  const row = { issued_ms: briefing.issuedMs, document_json: briefing.documentJson };
  await writing(db, async (tx) => {
    await tx
      .insertInto('briefings')
      .values({ ...id, ...row })
      .onConflict((c) => c.columns(['lake_id', 'local_date', 'edition']).doUpdateSet(row))
      .execute();
    // An amendment knew more, and an evening looks ahead from elsewhere: the morning's outlook is the promise.
    if (key.edition === 'morning')
      await putOutlook(
        tx,
        { lake_id: key.lakeId, local_date: key.localDate, issued_ms: briefing.issuedMs },
        briefing.documentJson,
      );
  });
  for (const { units, form, json } of briefing.renderings) {
    const body = gzipSync(json);
    await writing(db, (tx) =>
      tx
        .insertInto('renderings')
        .values({ ...id, units, form, body })
        .onConflict((c) =>
          c.columns(['lake_id', 'local_date', 'edition', 'units', 'form']).doUpdateSet({ body }),
        )
        .execute(),
    );
  }
}

export async function loadRendering(
  { db }: DeliveryRecord,
  key: RunKey,
  units: 'us' | 'metric',
  form: 'full' | 'short',
): Promise<string | undefined> {
  const row = await db
    .selectFrom('renderings')
    .select('body')
    .where('lake_id', '=', key.lakeId)
    .where('local_date', '=', key.localDate)
    .where('edition', '=', key.edition)
    .where('units', '=', units)
    .where('form', '=', form)
    .executeTakeFirst();
  return row && gunzipSync(row.body).toString('utf8');
}

export async function loadBriefing(
  { db }: DeliveryRecord,
  key: RunKey,
): Promise<ArchivedBriefing | undefined> {
  const row = await db
    .selectFrom('briefings')
    .selectAll()
    .where('lake_id', '=', key.lakeId)
    .where('local_date', '=', key.localDate)
    .where('edition', '=', key.edition)
    .executeTakeFirst();
  return row && archived(row);
}

/** Issued briefings of a lake, newest first. */
export async function listBriefings(
  { db }: DeliveryRecord,
  lakeId: string,
  limit: number,
  beforeDate = '9999',
): Promise<ArchivedBriefing[]> {
  const rows = await db
    .selectFrom('briefings')
    .selectAll()
    .where('lake_id', '=', lakeId)
    .where('local_date', '<', beforeDate)
    .orderBy('local_date', 'desc')
    .orderBy('issued_ms', 'desc')
    .limit(limit)
    .execute();
  return rows.map(archived);
}

export interface Beside {
  readonly before: RunKey | undefined;
  readonly after: RunKey | undefined;
}

/** The lake's issues before and after one, by the time they were issued. */
export async function besideBriefing({ db }: DeliveryRecord, of: ArchivedBriefing): Promise<Beside> {
  const other = async (sign: '<' | '>'): Promise<RunKey | undefined> => {
    const row = await db
      .selectFrom('briefings')
      .select(['lake_id', 'local_date', 'edition'])
      .where('lake_id', '=', of.lakeId)
      .where('issued_ms', sign, of.issuedMs)
      .orderBy('issued_ms', sign === '<' ? 'desc' : 'asc')
      .limit(1)
      .executeTakeFirst();
    return row && { lakeId: row.lake_id, localDate: row.local_date, edition: row.edition };
  };
  const [before, after] = [await other('<'), await other('>')];
  return { before, after };
}

/** Forgets renderings older than a local date; the documents stay, and can be rendered again. */
export async function pruneRenderings({ db }: DeliveryRecord, beforeDate: string): Promise<number> {
  let pruned = 0;
  for (const table of ['renderings', 'own_renderings'] as const) {
    const result = await writing(db, (tx) =>
      tx.deleteFrom(table).where('local_date', '<', beforeDate).executeTakeFirst(),
    );
    pruned += Number(result.numDeletedRows);
  }
  return pruned;
}

function archived(row: {
  lake_id: string;
  local_date: string;
  edition: Edition;
  issued_ms: number;
  document_json: string;
}): ArchivedBriefing {
  return {
    lakeId: row.lake_id,
    localDate: row.local_date,
    edition: row.edition,
    issuedMs: row.issued_ms,
    documentJson: row.document_json,
  };
}
