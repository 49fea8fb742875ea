/** Shapes of lakes and watersheds that were computed before, so that a fresh process need not compute them. */
import { statSync } from 'node:fs';
import { Kysely } from 'kysely';
import { sqliteRecord } from './dialect/index.ts';
import { isServerRecord, serverAddress } from './server.ts';
import type { Database } from './schema/index.ts';
import { writing } from './writing.ts';

export interface KeptShape {
  /** Id of the lake. */
  readonly lake: string;
  /** Id of the pocket whose watershed it is; '' for the lake's outline. */
  readonly part: string;
  /** Hash of what it was computed from. */
  readonly key: string;
  /** JSON. */
  readonly body: string;
}

const keptIn = async (db: Kysely<Database>, lakes: readonly string[]): Promise<KeptShape[]> =>
  (await db.selectFrom('kept_shape').selectAll().where('lake', 'in', lakes).execute()).map(
    ({ body_json: body, ...of }) => ({ ...of, body }),
  );

/**
 * What a record keeps of these lakes. It is asked while the configuration is read, before the record is opened: nothing
 * is made or migrated, and a record that is not there, older, damaged or out of reach has kept nothing. What is wrong
 * with it is said by whoever opens it.
 */
export async function keptShapes(path: string, lakes: readonly string[]): Promise<KeptShape[]> {
  try {
    if (isServerRecord(path)) {
      const { onServer } = await import('./openServer.ts');
      return await onServer(serverAddress(path, process.env), (db) => keptIn(db, lakes));
    }
    if (path === ':memory:' || statSync(path, { throwIfNoEntry: false }) === undefined) return [];
    const db = new Kysely<Database>({ dialect: sqliteRecord(path, 0, true).dialect });
    try {
      return await keptIn(db, lakes);
    } finally {
      await db.destroy();
    }
  } catch {
    return [];
  }
}

/** Keeps what was computed, in the place of what was kept of the same lake and pocket before. */
export async function keepShapes(
  { db }: { readonly db: Kysely<Database> },
  shapes: readonly KeptShape[],
): Promise<void> {
  if (shapes.length === 0) return;
  await writing(db, async (tx) => {
    for (const { lake, part, key, body: body_json } of shapes)
      await tx
        .insertInto('kept_shape')
        .values({ lake, part, key, body_json })
        .onConflict((c) => c.columns(['lake', 'part']).doUpdateSet({ key, body_json }))
        .execute();
  });
}
