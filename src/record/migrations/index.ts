import type { Kysely } from 'kysely';
import { makeTables } from '../dialect/postgres/tables.ts';
import { WORK_STEP } from '../schema/work.ts';
import { observations } from './0001_observations.ts';
import { known } from './0003_known.ts';
import { outings } from './0004_outings.ts';
import { releases } from './0005_releases.ts';
import { work } from './0006_work.ts';
import { ownViews, ownViewsOnPostgres } from './0007_own_views.ts';
import { asksReading, asksReadingOnPostgres } from './0008_asks_reading.ts';
import { outlook, outlookOnPostgres } from './0009_outlook.ts';
import { shapes } from './0010_shapes.ts';
import { staysAway, staysAwayOnPostgres } from './0011_stays_away.ts';
import { up as delivery } from './0002_delivery.ts';

/** One step of the schema. Steps are only ever appended: the place in the list is the version. */
export interface Migration {
  readonly name: string;
  readonly up: (db: Kysely<unknown>) => Promise<void>;
  /** What PostgreSQL does instead; left out, `up` is written so that both understand it. */
  readonly onPostgres?: (db: Kysely<unknown>) => Promise<void>;
}

/** No record in PostgreSQL is older than step 3, which makes its tables from the description. */
const nothing = (): Promise<void> => Promise.resolve();

export const MIGRATIONS: readonly Migration[] = [
  { name: '0001_observations', up: observations, onPostgres: nothing },
  { name: '0002_delivery', up: delivery, onPostgres: nothing },
  { name: '0003_known', up: known, onPostgres: (db) => makeTables(db, 3) },
  { name: '0004_outings', up: outings, onPostgres: (db) => makeTables(db, 4) },
  { name: '0005_releases', up: releases, onPostgres: (db) => makeTables(db, 5) },
  { name: '0006_work', up: work, onPostgres: (db) => makeTables(db, WORK_STEP) },
  { name: '0007_own_views', up: ownViews, onPostgres: ownViewsOnPostgres },
  { name: '0008_asks_reading', up: asksReading, onPostgres: asksReadingOnPostgres },
  { name: '0009_outlook', up: outlook, onPostgres: outlookOnPostgres },
  { name: '0010_shapes', up: shapes, onPostgres: (db) => makeTables(db, 10) },
  { name: '0011_stays_away', up: staysAway, onPostgres: staysAwayOnPostgres },
];
