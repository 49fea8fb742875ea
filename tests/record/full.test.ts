/** A disk without room, as SQLite itself reports it: a file that may not grow answers SQLITE_FULL (sqlite.org/pragma.html, max_page_count). */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { sql } from 'kysely';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { openRecord, type RecordStore } from '../../src/record/index.ts';
import { EXIT, ThawlineError } from '../../src/units/index.ts';
import { hourly, START, DAY } from './rows.ts';

let folder: string;
let record: RecordStore;
beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'record-full-'));
  record = await openRecord(join(folder, 'record.sqlite'));
});
afterEach(async () => {
  await record.close();
  rmSync(folder, { recursive: true, force: true });
});

/** What the connection that writes may fill from now on, pages; SQLite never takes less than the file has. */
const room = (pages: number): Promise<unknown> =>
  record.db
    .transaction()
    .execute((trx) => sql`pragma max_page_count = ${sql.raw(String(pages))}`.execute(trx));

it('is told as one, nothing of the refused write is there, and with room the same write succeeds', async () => {
  await record.putObservations(hourly([8, 9]));
  const many = hourly(
    Array.from({ length: 20_000 }, (_, i) => 5 + (i % 7)),
    { variable: 'level' },
  );
  await room(1);
  const refused: unknown = await record.putObservations(many).then(
    () => null,
    (error: unknown) => error,
  );
  expect(refused).toBeInstanceOf(ThawlineError);
  expect(refused).toMatchObject({ code: 'record', exitCode: EXIT.record, retryable: true });
  expect((refused as Error).message).toMatch(
    /disk under the record .* is full: nothing was written\. Make room/,
  );
  const seen = async (): Promise<Set<string>> =>
    new Set(
      (await record.view('pine-hollow', START + 900 * DAY, { days: 900 })).observations.map(
        ({ variable }) => variable,
      ),
    );
  expect(await seen()).toEqual(new Set(['water_temp']));
  await room(1_000_000);
  await record.putObservations(many);
  expect(await seen()).toEqual(new Set(['water_temp', 'level']));
});
