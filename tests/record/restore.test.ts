/** A restore as an operator runs it: every command in a process of its own. */
import { spawnSync } from 'node:child_process';
import {
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
import { afterEach, beforeEach, expect, it } from 'vitest';
import { PROGRAM } from '../builtProgram.ts';

let folder: string;
let path: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'record-restore-'));
  path = join(folder, 'data', 'record.sqlite');
  writeFileSync(
    join(folder, 'thawline.yaml'),
    `record: ${path}\nlakes:\n  - { id: tarn, name: Tarn, position: { lat: 35.5, lon: -92.5 }, zone: America/Chicago, waterBody: highland-reservoir, meanDepth: 40 ft, area: 12 km2 }\n`,
  );
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

function run(...words: string[]): { readonly status: number | null; readonly said: string } {
  const { status, stdout, stderr } = spawnSync(
    process.execPath,
    [...PROGRAM, '--config', join(folder, 'thawline.yaml'), ...words],
    { encoding: 'utf8' },
  );
  return { status, said: stdout + stderr };
}
const add = (name: string) => run('readers', 'add', `${name}@lake.example`, '--lake', 'tarn');
const backup = (name: string): string => {
  const file = join(folder, name);
  run('record', 'backup', file);
  return file;
};
const restore = (file: string) => run('record', 'restore', file);
const holds = (file: string, name: string): boolean =>
  readFileSync(file, 'latin1').includes(`${name}@lake.example`);

it('keeps every record it replaces, however often it is run', { timeout: 180_000 }, () => {
  add('early');
  const old = backup('old.sqlite');
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
  () => {
    add('early');
    const good = backup('good.sqlite');
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
    for (const [file, why] of [
      [
        written('letter.sqlite', Buffer.from('no database at all '.repeat(300))),
        /is not a record.*take an older one/,
      ],
      [written('empty.sqlite', new Uint8Array()), /is empty: take an older one/],
      [written('torn.sqlite', torn), /is damaged.*: take an older one/],
      [foreign, /database of another program/],
      [newer, /newer Thawline \(version 9999, .*install that version/],
      [join(folder, 'a-folder'), /is a folder/],
    ] as const) {
      const { status, said } = restore(file);
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
    add('early');
    const good = backup('good.sqlite');
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
