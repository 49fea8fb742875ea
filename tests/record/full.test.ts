/** A disk without room, as SQLite itself reports it: a file that may not grow answers SQLITE_FULL (sqlite.org/pragma.html, max_page_count). */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { sql } from 'kysely';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { sendNow } from '../../src/schedule/index.ts';
import { config, MORNING_MS, rendered, silent } from '../delivery/kit.ts';
import { deps, made, pipeline } from '../schedule/kit.ts';
import { addRecordCommands } from '../../src/cli/record.ts';
import { commandLine } from '../helpers/commandLine.ts';
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
  vi.restoreAllMocks();
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

const pagesUsed = async (): Promise<number> => {
  const { rows } = await sql<{ page_count: number }>`pragma page_count`.execute(record.db);
  return rows[0]?.page_count ?? 0;
};

it('between the claim of a morning and its issue ends send with the code of the record, and no stack is logged', async () => {
  // Room for what is noted on the way, none for the pages of the morning.
  await room((await pagesUsed()) + 20);
  const logged = vi.spyOn(silent, 'error');
  const page = {
    ...rendered(),
    html: 'x'.repeat(50) + Array.from({ length: 300_000 }, Math.random).join(''),
  };
  const morning = pipeline({
    makeBriefing: () => Promise.resolve(made({ render: () => Promise.resolve(page) })),
  });
  const refused: unknown = await sendNow(
    deps(record, { ms: MORNING_MS }, { pipeline: morning }, config()),
    'ossarly',
  ).catch((error: unknown) => error);
  expect(refused).toMatchObject({ code: 'record', exitCode: EXIT.record });
  expect((refused as Error).message).toMatch(/disk under the record .* is full/);
  expect(logged).toHaveBeenCalledOnce();
  expect(JSON.stringify(logged.mock.calls)).not.toMatch(/"at":|node_modules|\.ts:/);
});

describe('what is written beside the record', () => {
  const thawline = (...words: string[]) => {
    const file = join(folder, 'thawline.yaml');
    writeFileSync(
      file,
      `record: ${join(folder, 'other.sqlite')}
lakes:
  - { id: tarn, name: Tarn, position: { lat: 35.5, lon: -92.5 }, zone: America/Chicago, waterBody: highland-reservoir, meanDepth: 40 ft, area: 12 km2 }
`,
    );
    return commandLine(addRecordCommands, '--config', file, 'record', ...words);
  };

  it.each([['/dev/full'], ['/no/such/folder/x.csv']])(
    'an export into %s ends with a sentence',
    async (out) => {
      const { code, err } = await thawline('export', 'tarn', '--out', out);
      expect(err).toMatch(/cannot be written to its end/);
      expect(code).toBe(EXIT.usage);
    },
  );

  it.each([['/no/such/folder/x.sqlite'], ['/proc/x.sqlite'], ['/dev/full/x.sqlite']])(
    'a backup as %s ends with the code of the record and a sentence about the copy',
    async (target) => {
      const { code, err } = await thawline('backup', target);
      expect(err).toMatch(/^The copy .* could not be written: name a file in a folder that exists/);
      expect(code).toBe(EXIT.record);
    },
  );
});
