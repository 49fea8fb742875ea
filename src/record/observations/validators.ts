import type { Kysely } from 'kysely';
import type { Database } from '../schema/index.ts';
import { writing } from '../writing.ts';

/** What a service gave us to ask "has it changed?" with. */
export interface Validator {
  readonly etag?: string;
  readonly lastModified?: string;
}

export interface ValidatorStore {
  get(url: string): Promise<Validator | undefined>;
  set(url: string, validator: Validator): Promise<void>;
}

export function validatorStore(db: Kysely<Database>): ValidatorStore {
  return {
    async get(url) {
      const row = await db.selectFrom('validator').selectAll().where('url', '=', url).executeTakeFirst();
      if (row === undefined) return undefined;
      return {
        ...(row.etag === null ? {} : { etag: row.etag }),
        ...(row.last_modified === null ? {} : { lastModified: row.last_modified }),
      };
    },
    async set(url, validator) {
      const row = {
        etag: validator.etag ?? null,
        last_modified: validator.lastModified ?? null,
        set_ms: Date.now(),
      };
      await writing(db, (tx) =>
        tx
          .insertInto('validator')
          .values({ url, ...row })
          .onConflict((c) => c.column('url').doUpdateSet(row))
          .execute(),
      );
    },
  };
}
