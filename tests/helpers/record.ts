/**
 * A fresh, empty record for a test, in the database that the run is about: SQLite in memory, PostgreSQL in this process,
 * or a PostgreSQL server (THAWLINE_TEST_RECORD, set by the projects in vitest.config.ts).
 */
import { inject } from 'vitest';
import { openRecord, type RecordStore } from '../../src/record/index.ts';

export const RECORD_KIND = (process.env['THAWLINE_TEST_RECORD'] ?? 'sqlite') as
  'sqlite' | 'pglite' | 'postgres';

export async function freshRecord(): Promise<RecordStore> {
  if (RECORD_KIND === 'sqlite') return openRecord(':memory:');
  const { openOver } = await import('../../src/record/openServer.ts');
  if (RECORD_KIND === 'pglite') return openOver((await import('./pglite.ts')).pgliteDialect());
  const { databaseWithTables } = await import('./postgresServer.ts');
  const { openServerRecord } = await import('../../src/record/openServer.ts');
  return openServerRecord(await databaseWithTables(inject('postgresAddress')));
}
