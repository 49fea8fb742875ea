/**
 * A restore as an operator runs it: every command that changes something in a process of its own. One that is refused
 * opens nothing but the backup, so that all but one of those run here: a start costs half a second of processor time.
 */
import { spawnSync } from 'node:child_process';
import {
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { DatabaseSync } from '@photostructure/sqlite';
import { afterAll, afterEach, beforeAll, beforeEach, expect, it } from 'vitest';
import { addRecordCommands } from '../../src/cli/record.ts';
import { PROGRAM } from '../builtProgram.ts';
import { commandLine } from '../helpers/commandLine.ts';

/** A record with one reader and a backup of it, made once; every test works on a copy. */
let early: string;
let folder: string;
let path: string;
beforeAll(() => {
  early = mkdtempSync(join(tmpdir(), 'record-early-'));
  configure(early);
  add('early');
  run('record', 'backup', join(early, 'early.sqlite'));
});
afterAll(() => rmSync(early, { recursive: true, force: true }));
beforeEach(() => {
  const copy = mkdtempSync(join(tmpdir(), 'record-restore-'));
  cpSync(early, copy, { recursive: true });
  configure(copy);
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

/** From here on commands are about the record in this folder. */
function configure(where: string): void {
  folder = where;
  path = join(folder, 'data', 'record.sqlite');
  writeFileSync(
    join(folder, 'thawline.yaml'),
    `record: ${path}\nlakes:\n  - { id: tarn, name: Tarn, position: { lat: 35.5, lon: -92.5 }, zone: America/Chicago, waterBody: highland-reservoir, meanDepth: 40 ft, area: 12 km2 }\n`,
  );
}

function run(...words: string[]): { readonly status: number | null; readonly said: string } {
  const { status, stdout, stderr } = spawnSync(
    process.execPath,
    [...PROGRAM, '--config', join(folder, 'thawline.yaml'), ...words],
    { encoding: 'utf8' },
  );
  return { status, said: stdout + stderr };
}
const add = (name: string) => run('readers', 'add', `${name}@lake.example`, '--lake', 'tarn');
const backup = (): string => join(folder, 'early.sqlite');
const restore = (file: string) => run('record', 'restore', file);
/** The same in this process. */
async function restoreHere(file: string): Promise<{ readonly status: number; readonly said: string }> {
  const config = join(folder, 'thawline.yaml');
  const { code, out, err } = await commandLine(
    addRecordCommands,
    '--config',
    config,
    'record',
    'restore',
    file,
  );
  return { status: code, said: out + err };
}
const holds = (file: string, name: string): boolean =>
  readFileSync(file, 'latin1').includes(`${name}@lake.example`);

it('keeps every record it replaces, however often it is run', { timeout: 180_000 }, () => {
  const old = backup();
  add('precious');
  const kept = [1, 2, 3].map(() => {
    const { status, said } = restore(old);
    expect(status).toBe(0);
    return /The record so far is (\S+)\.$/m.exec(said)?.[1] ?? '';
  });
  expect(new Set(kept).size).toBe(3);
  expect(kept.map((file) => holds(file, 'precious'))).toEqual([true, false, false]);
  expect(run('readers', 'list').said).toMatch(/^early@lake\.example/);
});

it(
  'refuses what is no backup by its own name, with its own cure, and changes nothing',
  { timeout: 180_000 },
  async () => {
    const good = backup();
    const written = (name: string, bytes: Uint8Array): string => {
      writeFileSync(join(folder, name), bytes);
      return join(folder, name);
    };
    const foreign = join(folder, 'foreign.sqlite');
    const other = new DatabaseSync(foreign);
    other.exec('create table notes (text)');
    other.close();
    const newer = written('newer.sqlite', readFileSync(good));
    const ahead = new DatabaseSync(newer);
    ahead.exec('insert into record_version values (9999, 0)');
    ahead.close();
    const torn = readFileSync(good);
    for (let at = 4096 * 3; at < torn.length; at += 4096) torn.fill(0xa5, at, at + 200);
    mkdirSync(join(folder, 'a-folder'));
    const before = readFileSync(path);
    const letter = written('letter.sqlite', Buffer.from('no database at all '.repeat(300)));
    for (const [file, why, by] of [
      [letter, /is not a record.*take an older one/, restore],
      [written('empty.sqlite', new Uint8Array()), /is empty: take an older one/, restoreHere],
      [written('torn.sqlite', torn), /is damaged.*: take an older one/, restoreHere],
      [foreign, /database of another program/, restoreHere],
      [newer, /newer Thawline \(version 9999, .*install that version/, restoreHere],
      [join(folder, 'a-folder'), /is a folder/, restoreHere],
    ] as const) {
      const { status, said } = await by(file);
      expect({ status, said }).toEqual({ status: 4, said: expect.stringMatching(why) });
      expect(said).toContain(`The backup ${file} `);
      expect(said).toContain('Nothing was changed.');
      expect(said).not.toMatch(/\.restoring|in the configuration/);
    }
    expect(readFileSync(path).equals(before)).toBe(true);
    expect(readdirSync(join(folder, 'data')).filter((name) => /restoring|replaced/.test(name))).toEqual([]);
  },
);

it(
  'takes the place of a record that is damaged, and of one that is not there yet',
  { timeout: 180_000 },
  () => {
    const good = backup();
    writeFileSync(path, 'no database at all '.repeat(300));
    const done = restore(good);
    expect(done).toEqual({ status: 0, said: expect.stringContaining(`${path}.replaced`) });
    expect(readFileSync(`${path}.replaced`, 'latin1')).toMatch(/^no database/);
    expect(run('readers', 'list').said).toMatch(/^early@/);
    rmSync(join(folder, 'data'), { recursive: true });
    expect(restore(good).status).toBe(0);
    expect(existsSync(path)).toBe(true);
    expect(run('readers', 'list').said).toMatch(/^early@/);
  },
);
