/** The first minute of a record in PostgreSQL: tables made by one command, the same month by two workers at once. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { sql } from 'kysely';
import { afterAll, expect, inject, it, vi } from 'vitest';
import { addRecordCommands } from '../../src/cli/record.ts';
import { openServerRecord } from '../../src/record/openServer.ts';
import { problemOf } from '../../src/schedule/issue.ts';
import { commandLine } from '../helpers/commandLine.ts';
import { emptyDatabase } from '../helpers/postgresServer.ts';
import { DAY, row, START } from '../record/rows.ts';

const folder = mkdtempSync(join(tmpdir(), 'fresh-'));
afterAll(() => rmSync(folder, { recursive: true }));

it('keeps what two workers bring of one new month at the same moment', async () => {
  const address = await emptyDatabase(inject('postgresAddress'));
  const workers = [await openServerRecord(address), await openServerRecord(address)];
  for (let month = 0; month < 12; month += 1) {
    const atMs = START + month * 31 * DAY;
    await Promise.all(
      workers.map((worker, n) => worker.putObservations([row({ station: `s${n}`, atMs, value: 1 })])),
    );
  }
  for (const n of [0, 1]) {
    const { rows } = await sql<{ n: number }>`
      select count(*)::int as n from observation join series on series.id = series_id where station = ${`s${n}`}`.execute(
      (workers[0] ?? { db: undefined as never }).db,
    );
    expect(rows[0]?.n).toBe(12);
  }
  for (const worker of workers) await worker.close();
});

it('says what PostgreSQL said of a fault of the program, and never a value', async () => {
  const record = await openServerRecord(await emptyDatabase(inject('postgresAddress')));
  const fault = async (statement: ReturnType<typeof sql>): Promise<string> =>
    statement.execute(record.db).then(
      () => '',
      (error: unknown) => problemOf(error),
    );
  expect(await fault(sql`select * from nowhere`)).toBe(
    'PostgreSQL refused what the program asked: relation "nowhere" does not exist (42P01).',
  );
  expect(await fault(sql`select 'ann@example.org'::int`)).not.toContain('ann@example.org');
  await record.close();
});

it('makes the tables of record and engine by a command of its own, and issues nothing', async () => {
  const address = await emptyDatabase(inject('postgresAddress'));
  const path = join(folder, 'thawline.yaml');
  writeFileSync(
    path,
    'record: postgres:FRESH_URL\nlakes:\n  - { id: ossarly, name: Ossarly, position: { lat: 36, lon: -92 }, zone: America/Chicago, waterBody: highland-reservoir, meanDepth: 10 m, area: 10 km2 }\n',
  );
  vi.stubEnv('FRESH_URL', address);
  for (const time of ['first', 'second'])
    expect(await commandLine(addRecordCommands, '--config', path, 'record', 'prepare'), time).toMatchObject({
      code: 0,
      out: 'postgres:FRESH_URL: the tables are those of this version.\n',
    });
  vi.unstubAllEnvs();
  const record = await openServerRecord(address);
  const { rows } = await sql<{ engine: string | null; runs: number }>`
    select to_regclass('thawline_jobs.job')::text as engine, (select count(*)::int from runs) as runs`.execute(
    record.db,
  );
  expect(rows).toEqual([{ engine: 'thawline_jobs.job', runs: 0 }]);
  await record.close();
});
