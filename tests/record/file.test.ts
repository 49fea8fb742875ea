/** The record as a file: whose it is, what it keeps of the erased, how it is copied, restored and watched. */
import {
  existsSync,
  mkdtempSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
  openSync,
  writeSync,
  closeSync,
} from 'node:fs';
import { execFileSync, fork, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { fileURLToPath } from 'node:url';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { DatabaseSync } from '@photostructure/sqlite';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { openRecord } from '../../src/record/index.ts';
import { eraseLeftBefore, eraseReader, insertReader, readerById } from '../../src/record/delivery/readers.ts';
import { addToOutbox } from '../../src/record/delivery/outbox.ts';
import { claimRun, forgetAhead, missRun, runsSince } from '../../src/record/schedule/runs.ts';
import { recordProblems, lookAtRecord } from '../../src/schedule/recordWatch.ts';
import { PROGRAM } from '../builtProgram.ts';
import { builtChild } from '../helpers/builtChild.ts';
import { hourly, START, DAY } from './rows.ts';

let folder: string;
let path: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'record-file-'));
  path = join(folder, 'record.sqlite');
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const reader = (id: string, change: object = {}) => ({
  id,
  address: `${id}@erased.example`,
  state: 'active' as const,
  origin: 'page' as const,
  units: 'us' as const,
  form: 'full' as const,
  days_mask: 127,
  earliest_hour: 0,
  amendments: 1,
  tackle_json: null,
  token_epoch: 1,
  created_ms: 0,
  confirmed_ms: 0,
  left_ms: null,
  language: null,
  fishing: null,
  asks_reading: null,
  gone_state: null,
  ...change,
});

const hits = (text: string): number =>
  ['', '-wal', '-shm']
    .map((end) => path + end)
    .filter((file) => existsSync(file))
    .reduce((n, file) => n + readFileSync(file, 'latin1').split(text).length - 1, 0);

describe('a record that is no file', () => {
  it.each([
    ['a folder', () => folder],
    ['no file', () => '/dev/null'],
  ])('%s is refused by name and keeps its rights', async (what, at) => {
    const before = statSync(at()).mode;
    await expect(openRecord(at())).rejects.toMatchObject({
      code: 'record',
      message: `The record ${at()} is ${what}: name a file, such as \`record: data/thawline.sqlite\`.`,
    });
    expect(statSync(at()).mode).toBe(before);
  });
});

describe('what was erased', () => {
  it('is nowhere in the file and its log, while the record stays open', async () => {
    const record = await openRecord(path);
    for (let n = 0; n < 200; n += 1) await insertReader(record, reader(`person${n}`), ['tarn']);
    expect(hits('person77@erased.example')).toBeGreaterThan(0);
    await eraseReader(record, 'person77');
    expect(hits('person77@erased.example')).toBe(0);
    expect(hits('person78@erased.example')).toBeGreaterThan(0);
    await record.close();
  });

  it('includes readers who left before the stated time, and only those', async () => {
    const record = await openRecord(path);
    await insertReader(record, reader('early', { state: 'left', left_ms: START }), []);
    await insertReader(record, reader('late', { state: 'left', left_ms: START + DAY }), []);
    await insertReader(record, reader('stays', { left_ms: START }), []);
    expect(await eraseLeftBefore(record, START + 1)).toBe(1);
    expect(await readerById(record, 'early')).toBeUndefined();
    expect(await readerById(record, 'late')).toBeDefined();
    expect(await readerById(record, 'stays')).toBeDefined();
    await record.close();
  });
});

describe('the file', () => {
  it('and its copies may be read by their owner only', async () => {
    writeFileSync(path, '', { mode: 0o644 });
    const record = await openRecord(path);
    await record.putObservations(hourly([1]));
    await record.upkeep.copyTo(join(folder, 'copy.sqlite'));
    for (const name of ['record.sqlite', 'record.sqlite-wal', 'copy.sqlite'])
      expect(statSync(join(folder, name)).mode & 0o777, name).toBe(0o600);
    await record.close();
  });

  it('of another program is refused, and nothing is changed in it', async () => {
    const other = new DatabaseSync(path);
    other.exec('create table notes (text); insert into notes values (1)');
    other.close();
    const before = readFileSync(path);
    await expect(openRecord(path)).rejects.toMatchObject({
      exitCode: 4,
      message: expect.stringMatching(/database of another program.*Nothing was changed/),
    });
    const tables = new DatabaseSync(path).prepare('select name from sqlite_master').all();
    expect(tables).toEqual([{ name: 'notes' }]);
    expect(before.length).toBe(statSync(path).size);
  });

  it('that was replaced or removed while it is open is noticed', async () => {
    const record = await openRecord(path);
    expect(await recordProblems(record)).toEqual([]);
    renameSync(path, `${path}.moved`);
    expect(await recordProblems(record)).toEqual([expect.stringMatching(/removed or replaced/)]);
    writeFileSync(path, 'another file');
    expect(await recordProblems(record)).toEqual([expect.stringMatching(/removed or replaced/)]);
    await record.close();
  });

  it('with damaged pages is noticed by the daily look, and a use of them ends with exit code 4', async () => {
    let record = await openRecord(path);
    await record.putObservations(hourly(Array.from({ length: 3000 }, (_, i) => i)));
    await record.upkeep.shrink();
    await record.close();
    const { size } = statSync(path);
    const fd = openSync(path, 'r+');
    for (let at = 4096 * 8; at < size; at += 4096) writeSync(fd, Buffer.alloc(64, 0xa5), 0, 64, at);
    closeSync(fd);
    await expect(
      (async () => {
        record = await openRecord(path);
        const problems = await lookAtRecord(record, START);
        if (problems.length > 0) throw Object.assign(new Error(problems[0]), { exitCode: 4 });
      })(),
    ).rejects.toMatchObject({ exitCode: 4, message: expect.stringMatching(/damaged/) });
    await record.close();
  });
});

describe('a restore', () => {
  /** The command in a process of its own, as an operator runs it. */
  function restore(backup: string): { status: number | null; said: string } {
    const config = join(folder, 'thawline.yaml');
    writeFileSync(
      config,
      `record: ${path}\nlakes:\n  - { id: tarn, name: Tarn, position: { lat: 35.5, lon: -92.5 }, zone: America/Chicago, waterBody: highland-reservoir, meanDepth: 40 ft, area: 12 km2 }\n`,
    );
    const words = [...PROGRAM, '--config', config, 'record', 'restore', backup];
    const { status, stdout, stderr } = spawnSync(process.execPath, words, { encoding: 'utf8' });
    return { status, said: stdout + stderr };
  }
  /** The values of a record, by a process of its own. */
  function values(file: string): number[] {
    const script = `const { DatabaseSync } = require('@photostructure/sqlite');
      console.log(JSON.stringify(new DatabaseSync(${JSON.stringify(file)}).prepare('select value from observation order by at_ms').all().map((row) => row.value)))`;
    const root = fileURLToPath(new URL('../..', import.meta.url));
    return JSON.parse(
      execFileSync(process.execPath, ['-e', script], { encoding: 'utf8', cwd: root }),
    ) as number[];
  }

  it(
    'is refused while somebody has the record open; afterwards it keeps the record so far',
    { timeout: 180_000 },
    async () => {
      const writer = fork(await builtChild('tests/record/openRecordChild.ts'), [path]);
      await once(writer, 'message');
      const backup = join(folder, 'backup.sqlite');
      const refused = restore(backup);
      expect(refused.status).toBe(4);
      expect(refused.said).toMatch(/open in another process.*Nothing was changed/);
      expect(values(path)).toEqual([9, 9]);
      writer.send('close');
      await once(writer, 'exit');
      const done = restore(backup);
      expect(done.said).toContain(`${path}.replaced`);
      expect(values(path)).toEqual([1, 2]);
      expect(values(`${path}.replaced`)).toEqual([9, 9]);
      writeFileSync(join(folder, 'no.sqlite'), 'no database at all '.repeat(300));
      expect(restore(join(folder, 'no.sqlite')).status).toBe(4);
      expect(values(path)).toEqual([1, 2]);
      expect(existsSync(`${path}.restoring`)).toBe(false);
    },
  );
});

describe('a clock that ran ahead', () => {
  it('leaves no mornings behind that count as done when they really come', async () => {
    const record = await openRecord(path);
    const nowMs = Date.parse('2026-03-06T12:00:00Z');
    const key = (localDate: string) => ({ lakeId: 'tarn', localDate, edition: 'morning' as const });
    const at = (ms: number) => ({ owner: 'a', nowMs: ms, dueMs: ms });
    await claimRun(record, key('2026-03-06'), { ...at(nowMs - 3_600_000), leaseMs: 1 });
    await claimRun(record, key('2026-03-07'), { ...at(nowMs + DAY), leaseMs: 1 });
    await missRun(record, key('2026-03-08'), { ...at(nowMs + 2 * DAY), problem: 'passed' });
    await insertReader(record, reader('ana'), ['tarn']);
    const mail = {
      lakeId: 'tarn',
      edition: 'morning',
      readerId: 'ana',
      notBeforeMs: 0,
      expiresMs: nowMs * 2,
    } as const;
    const dates = ['2026-03-06', '2026-03-07'];
    await addToOutbox(
      record,
      dates.map((localDate) => ({ ...mail, localDate })),
      nowMs + DAY,
    );
    expect(await forgetAhead(record, 'tarn', '2026-03-06', nowMs)).toEqual(['2026-03-07', '2026-03-08']);
    expect((await runsSince(record, 'tarn', '')).map((run) => run.local_date)).toEqual(['2026-03-06']);
    const mails = await record.db.selectFrom('outbox').select('local_date').execute();
    expect(mails).toEqual([{ local_date: '2026-03-06' }]);
    await record.close();
  });
});
