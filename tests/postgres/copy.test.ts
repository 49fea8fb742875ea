/** A club's record moves to a server: whole, verified, resumed where it stopped. */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { sql } from 'kysely';
import { afterEach, beforeEach, describe, expect, inject, it } from 'vitest';
import { copyRecord, openRecord, type RecordStore } from '../../src/record/index.ts';
import { openServerRecord } from '../../src/record/openServer.ts';
import { addReaders, issueMorning } from '../delivery/kit.ts';
import { emptyDatabase, serverPrograms } from '../helpers/postgresServer.ts';
import { DAY, HOUR, hourly, row, START } from '../record/rows.ts';

let folder: string;
let club: RecordStore;
let server: RecordStore;
let address: string;
beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'copy-'));
  club = await openRecord(join(folder, 'club.sqlite'));
  await addReaders(club, 30);
  await issueMorning(club);
  // More than a page of measured values, over several months, with what doubles are hard about.
  await club.putObservations(hourly(Array.from({ length: 5000 }, (_, i) => 9 + i / 3)));
  await club.putObservations([
    row({ variable: 'level', datum: 'NAVD88', value: 0.1 + 0.2, qualifiers: ['P', 'é'], provisional: true }),
    row({ kind: 'forecast', issuedMs: START, atMs: START + HOUR, value: 1e-7 }),
  ]);
  address = await emptyDatabase(inject('postgresAddress'));
  server = await openServerRecord(address);
});
afterEach(async () => {
  await club.close();
  await server.close();
  rmSync(folder, { recursive: true });
});

describe('a copy of a record to a server', () => {
  it('is the same by counts, checksums and views, and goes on from there', async () => {
    const tables = await copyRecord(club, server, 'club');
    expect(Object.fromEntries(tables.map(({ table, rows }) => [table, rows]))).toMatchObject({
      observation: 5001,
      forecast: 1,
      readers: 30,
      outbox: 30,
      renderings: 4,
    });
    const asOf = START + 300 * DAY;
    const [here, there] = [
      await club.view('pine-hollow', asOf, { days: 400 }),
      await server.view('pine-hollow', asOf, { days: 400 }),
    ];
    expect(there.observations).toEqual(here.observations);
    // Numbers that the server gives from now on are new ones.
    await addReaders(server, 5, 30);
    expect(await server.putObservations(hourly([1, 2], { station: 'new' }))).toEqual({
      inserted: 2,
      changed: 0,
    });
    const months = await sql<{ n: number }>`select count(*) as n from pg_inherits
      where inhparent = 'observation'::regclass`.execute(server.db);
    expect(months.rows[0]?.n).toBeGreaterThan(6);
  });

  it('that was stopped in the middle goes on, and is whole', async () => {
    let pages = 0;
    const stopped = copyRecord(club, server, 'club', (table) => {
      if (table === 'observation' && (pages += 1) === 2) throw new Error('pulled out');
    });
    await expect(stopped).rejects.toThrow('pulled out');
    const sent: string[] = [];
    const tables = await copyRecord(club, server, 'club', (table, rows) => sent.push(`${table} ${rows}`));
    expect(tables.find(({ table }) => table === 'observation')?.rows).toBe(5001);
    // Two pages of 2,000 were there already.
    expect(sent.filter((line) => line.startsWith('observation'))).toEqual(['observation 1001']);
  });

  it('refuses a database that holds another record, and leaves it alone', async () => {
    await addReaders(server, 1, 99);
    await expect(copyRecord(club, server, 'club')).rejects.toThrow(/holds another record already/);
    const kept = await server.db.selectFrom('readers').select('id').execute();
    expect(kept).toHaveLength(1);
  });

  it('finds a value that differs when it goes on, and sends that table anew', async () => {
    await copyRecord(club, server, 'club');
    await server.db.transaction().execute(async (tx) => {
      await sql`update observation set value = value + 1`.execute(tx);
      await tx.insertInto('locks').values({ name: 'record-copy', owner: 'club', until_ms: 0 }).execute();
    });
    await copyRecord(club, server, 'club');
    const asOf = START + 300 * DAY;
    expect((await server.view('pine-hollow', asOf, { days: 400 })).observations).toEqual(
      (await club.view('pine-hollow', asOf, { days: 400 })).observations,
    );
  });

  it('comes back whole from what pg_dump wrote', async () => {
    await copyRecord(club, server, 'club');
    const programs = serverPrograms() ?? '';
    const dump = join(folder, 'record.dump');
    execFileSync(join(programs, 'pg_dump'), ['-Fc', '-f', dump, address]);
    const other = await emptyDatabase(address);
    execFileSync(join(programs, 'pg_restore'), ['--no-owner', '-d', other, dump]);
    const restored = await openServerRecord(other);
    const asOf = START + 300 * DAY;
    expect(await restored.view('pine-hollow', asOf, { days: 400 })).toEqual(
      await server.view('pine-hollow', asOf, { days: 400 }),
    );
    // A month that was not there before can still be made.
    expect(await restored.putObservations([row({ atMs: START + 900 * DAY })])).toMatchObject({ inserted: 1 });
    await restored.close();
  });
});
