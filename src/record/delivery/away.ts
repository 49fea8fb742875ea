/**
 * Who is not mailed again although nothing else is known of them any more: a keyed hash of the address, and what it said.
 * The key lies in the record, not in the secret of the links: that may be changed, and then everybody would come back.
 */
import { createHmac } from 'node:crypto';
import { sql } from 'kysely';
import type { AwayKind } from '../schema/delivery.ts';
import { writing } from '../writing.ts';
import type { DeliveryDb, DeliveryRecord } from './readers.ts';

/** Row of delivery_state that holds the key; step 11 of the schema makes it. */
const KEY = 'away-key';

export interface Away {
  readonly said: AwayKind;
  readonly atMs: number;
}

async function hashOf(db: DeliveryDb, address: string): Promise<string> {
  const row = await db
    .selectFrom('delivery_state')
    .select('value_json')
    .where('key', '=', KEY)
    .executeTakeFirstOrThrow();
  return createHmac('sha256', row.value_json).update(address).digest('hex');
}

/**
 * What an address said before its row was erased; undefined where it said nothing.
 *
 * @param address normal
 */
export async function awayOf({ db }: DeliveryRecord, address: string): Promise<Away | undefined> {
  const row = await db
    .selectFrom('stays_away')
    .select(['said', 'at_ms'])
    .where('hash', '=', await hashOf(db, address))
    .executeTakeFirst();
  return row && { said: row.said, atMs: row.at_ms };
}

/** Remembers that an address is not to be mailed again. A complaint is not weakened by what comes later. */
export async function keepAway({ db }: DeliveryRecord, address: string, { said, atMs }: Away): Promise<void> {
  await writing(db, async (tx) => {
    const hash = await hashOf(tx, address);
    await tx
      .insertInto('stays_away')
      .values({ hash, said, at_ms: atMs })
      .onConflict((c) =>
        c
          .column('hash')
          .doUpdateSet({ said, at_ms: atMs })
          .where(sql<boolean>`stays_away.said <> 'complained'`),
      )
      .execute();
  });
}

/** They have asked for it again themselves. */
export async function letBack({ db }: DeliveryRecord, address: string): Promise<void> {
  await writing(db, async (tx) => {
    await tx
      .deleteFrom('stays_away')
      .where('hash', '=', await hashOf(tx, address))
      .execute();
  });
}
