import type { Kysely } from 'kysely';
import { observations } from './0001_observations.ts';
import { known } from './0003_known.ts';
import { outings } from './0004_outings.ts';
import { up as delivery } from './0002_delivery.ts';

/** One step of the schema. Steps are only ever appended: the place in the list is the version. */
export interface Migration {
  readonly name: string;
  readonly up: (db: Kysely<unknown>) => Promise<void>;
}

export const MIGRATIONS: readonly Migration[] = [
  { name: '0001_observations', up: observations },
  { name: '0002_delivery', up: delivery },
  { name: '0003_known', up: known },
  { name: '0004_outings', up: outings },
];
