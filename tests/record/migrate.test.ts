import { existsSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Kysely, sql } from 'kysely';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { openRecord } from '../../src/record/index.ts';
import { sqliteRecord } from '../../src/record/dialect/index.ts';
import { backupPath, migrate } from '../../src/record/migrate.ts';
import { MIGRATIONS, type Migration } from '../../src/record/migrations/index.ts';
import type { Database } from '../../src/record/schema/index.ts';
import { hourly, row, START, DAY } from './rows.ts';

let folder: string;
let path: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'record-migrate-'));
  path = join(folder, 'record.sqlite');
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const open = () => new Kysely<Database>({ dialect: sqliteRecord(path).dialect });
const noCopy = () => Promise.resolve();

/** A file as the program's first version left it: schema step 1 only, with data. */
async function writeOldRecord(): Promise<void> {
  const db = open();
  await migrate(db, path, START, noCopy, MIGRATIONS.slice(0, 1));
  await db.transaction().execute(async (trx) => {
    await sql`insert into series values (1, 'pine-hollow', 'water_temp', 'usgs', 'S1', 'observed', 0, '')`.execute(
      trx,
    );
    await sql`insert into observation values (1, ${START}, 9, null, null, null)`.execute(trx);
  });
  await db.destroy();
}

async function versions(file: string): Promise<number[]> {
  const db = new Kysely<Database>({ dialect: sqliteRecord(file).dialect });
  const rows = await db.selectFrom('record_version').select('version').orderBy('version').execute();
  await db.destroy();
  return rows.map(({ version }) => version);
}

describe('opening a record', () => {
  it('makes a new one, folder and all', async () => {
    const record = await openRecord(join(folder, 'a', 'b', 'record.sqlite'));
    await record.putObservations([row()]);
    await record.close();
    expect(existsSync(join(folder, 'a', 'b', 'record.sqlite'))).toBe(true);
  });

  it('of an older version keeps a copy, migrates it, and keeps its content', async () => {
    await writeOldRecord();
    const record = await openRecord(path);
    const { observations } = await record.view('pine-hollow', START + DAY);
    await record.close();
    expect(observations).toEqual([row()]);
    expect(await versions(path)).toEqual(MIGRATIONS.map((_, i) => i + 1));
    expect(await versions(backupPath(path, 1))).toEqual([1]);
  });

  it('of the time before outlooks were kept apart finds them in its documents, the morning’s and no other', async () => {
    const db = open();
    await migrate(db, path, START, noCopy, MIGRATIONS.slice(0, 8));
    const document = (date: string, waterC: number): string =>
      JSON.stringify({
        ...{ status: 'scheduled', demo: false, preview: false, date: '2026-03-01' },
        series: { days: [{ date, forecast: true, waterC, waterLowC: waterC - 2, waterHighC: waterC + 2 }] },
      });
    const kept = [
      ['2026-03-01', 'morning', document('2026-03-03', 9)],
      ['2026-03-01', 'amendment', document('2026-03-02', 30)],
      ['2026-03-02', 'morning', '{"schema":"1"}'],
    ] as const;
    await db.transaction().execute(async (trx) => {
      for (const [date, edition, json] of kept)
        await sql`insert into briefings values ('pine-hollow', ${date}, ${edition}, ${START}, ${json})`.execute(
          trx,
        );
    });
    await db.destroy();
    await (await openRecord(path)).close();
    const now = open();
    expect(await now.selectFrom('outlook').selectAll().execute()).toEqual([
      {
        ...{ lake_id: 'pine-hollow', local_date: '2026-03-01', lead_days: 2 },
        ...{ issued_ms: START, water_c: 9, half_c: 2 },
      },
    ]);
    await now.destroy();
  });

  it('of this version makes no copy', async () => {
    await (await openRecord(path)).close();
    await (await openRecord(path)).close();
    expect(existsSync(backupPath(path, MIGRATIONS.length))).toBe(false);
  });

  it('of a newer version is refused with what to do, and the file is left alone', async () => {
    await (await openRecord(path)).close();
    const db = open();
    await db
      .transaction()
      .execute((trx) =>
        trx.insertInto('record_version').values({ version: 99, applied_ms: START }).execute(),
      );
    await db.destroy();
    await expect(openRecord(path)).rejects.toMatchObject({
      code: 'record',
      message: expect.stringMatching(/newer Thawline.*version 99.*install that version again, or restore/),
    });
    expect(await versions(path)).toContain(99);
  });

  it('that fails half way through a migration is still the old version', async () => {
    await writeOldRecord();
    const broken: Migration = {
      name: 'broken',
      up: async (db) => {
        await sql`create table half (id integer)`.execute(db);
        throw new Error('disk full');
      },
    };
    const db = open();
    await expect(migrate(db, path, START, noCopy, [...MIGRATIONS.slice(0, 1), broken])).rejects.toThrow(
      'disk full',
    );
    const tables = await sql<{ name: string }>`select name from sqlite_master where name = 'half'`.execute(
      db,
    );
    expect(tables.rows).toEqual([]);
    await db.destroy();
    expect(await versions(path)).toEqual([1]);
  });

  it('never overwrites an earlier copy', async () => {
    await writeOldRecord();
    writeFileSync(backupPath(path, 1), 'the earlier copy');
    await (await openRecord(path)).close();
    expect(await versions(`${backupPath(path, 1)}-2`)).toEqual([1]);
  });

  it('that is another kind of file is refused in one sentence', async () => {
    writeFileSync(path, 'not a database, but long enough to look like one: '.repeat(50));
    await expect(openRecord(path)).rejects.toMatchObject({
      code: 'record',
      message: expect.stringMatching(/is not a record.*restore the newest backup/),
    });
  });

  it('by two at the same moment ends in one whole record', async () => {
    const [a, b] = await Promise.all([openRecord(path), openRecord(path)]);
    await Promise.all([
      a.putObservations(hourly([1, 2])),
      b.putObservations(hourly([1, 2], { station: 'S2' })),
    ]);
    expect((await a.view('pine-hollow', START + DAY)).observations).toHaveLength(4);
    await a.close();
    await b.close();
  });
});

describe('a backup', () => {
  it('taken while the record is open restores to the same content', async () => {
    const record = await openRecord(path);
    await record.putObservations(hourly([1, 2, 3]));
    const copy = join(folder, 'copy.sqlite');
    await record.upkeep.copyTo(copy);
    await record.putObservations(hourly([9, 9, 9]));
    await record.close();
    const restored = await openRecord(copy);
    const { observations } = await restored.view('pine-hollow', START + DAY);
    await restored.close();
    expect(observations.map(({ value }) => value)).toEqual([1, 2, 3]);
  });
});
