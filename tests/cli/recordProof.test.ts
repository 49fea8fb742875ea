/** What `check` says of a record that cannot be used: now, and not at the hour of issue. */
import { spawnSync } from 'node:child_process';
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { DatabaseSync } from '@photostructure/sqlite';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { addCheckCommand } from '../../src/cli/check.ts';
import { openRecord } from '../../src/record/index.ts';
import { PROGRAM } from '../builtProgram.ts';
import { commandLine, type Said } from '../helpers/commandLine.ts';
import { hourly } from '../record/rows.ts';

let folder: string;
let config: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'thawline-proof-'));
  config = join(folder, 'thawline.yaml');
});
afterEach(() => {
  vi.unstubAllEnvs();
  rmSync(folder, { recursive: true, force: true });
});

function write(record: string): void {
  writeFileSync(
    config,
    `record: ${record}
lakes:
  - { id: tarn, name: Tarn, position: { lat: 35.5, lon: -92.5 }, zone: America/Chicago, waterBody: highland-reservoir, meanDepth: 40 ft, area: 12 km2 }
mail: { from: "River desk <desk@example.org>", transport: directory, directory: ${join(folder, 'mail')} }
`,
  );
}

const check = (record: string): Promise<Said> => {
  write(record);
  return commandLine(addCheckCommand, '--config', config, 'check', '--no-services', '--no-links');
};

/** A record with a few thousand values in it, closed. */
async function made(path: string): Promise<void> {
  const record = await openRecord(path);
  await record.putObservations(hourly(Array.from({ length: 3000 }, (_, i) => i % 30)));
  await record.upkeep.shrink();
  await record.close();
}

describe('check refuses a record that', () => {
  const refused = async (record: string, why: RegExp): Promise<void> => {
    const { code, out } = await check(record);
    expect(out).toMatch(why);
    expect(out).not.toContain('All as expected');
    expect(code).toBe(3);
  };

  it('is a folder', () => refused(folder, /WRONG {2}record: .* is a folder: name a file/));

  it('is a file of something else', async () => {
    const path = join(folder, 'junk.sqlite');
    writeFileSync(path, 'no database at all '.repeat(300));
    await refused(path, /WRONG {2}record: .*is not a record/);
  });

  it("is another program's database", async () => {
    const path = join(folder, 'other.sqlite');
    const other = new DatabaseSync(path);
    other.exec('create table notes (text)');
    other.close();
    await refused(path, /WRONG {2}record: .*database of another program/);
  });

  it('is damaged in its pages', async () => {
    const path = join(folder, 'damaged.sqlite');
    await made(path);
    rmSync(`${path}-wal`, { force: true });
    rmSync(`${path}-shm`, { force: true });
    const bytes = readFileSync(path);
    for (let at = 4096; at < bytes.length; at += 4096) bytes.fill(0xa5, at, at + 64);
    writeFileSync(path, bytes);
    await refused(path, /WRONG {2}record: .*is damaged/);
  });

  it('has a file in the place of its folder', async () => {
    writeFileSync(join(folder, 'plain'), '');
    await refused(
      join(folder, 'plain', 'r.sqlite'),
      /WRONG {2}record: .*may not be written .*plain is no folder/,
    );
  });

  it('lies behind a link that leads nowhere', async () => {
    symlinkSync(join(folder, 'nowhere'), join(folder, 'link'));
    await refused(join(folder, 'link', 'r.sqlite'), /WRONG {2}record: .*link is no folder/);
  });

  it('lies where nobody can make a file', () =>
    refused('/proc/thawline/r.sqlite', /WRONG {2}record: .*nothing can be made in \/proc/));

  it('lies on a server whose address nobody set', async () => {
    vi.stubEnv('THAWLINE_NO_SUCH', '');
    vi.stubEnv('THAWLINE_SECRET', 'x'.repeat(32));
    const { code, err, out } = await check('postgres:THAWLINE_NO_SUCH');
    expect(`${out}${err}`).toMatch(/THAWLINE_NO_SUCH is empty/);
    expect(code).toBe(3);
  });
});

describe('check passes a record that', () => {
  it('is whole, and changes nothing of it', async () => {
    const path = join(folder, 'r.sqlite');
    await made(path);
    const before = readFileSync(path);
    const { code, out } = await check(path);
    expect(out).toMatch(/well {3}record: whole and writable/);
    expect(code).toBe(0);
    expect(readFileSync(path).equals(before)).toBe(true);
  });

  it('is in use, its newest values still in the log', async () => {
    const path = join(folder, 'r.sqlite');
    const record = await openRecord(path);
    await record.putObservations(hourly([8, 9]));
    expect(await check(path)).toMatchObject({ code: 0 });
    await record.putObservations(hourly([8, 9, 10]));
    await record.close();
  });

  it('can be made, and makes neither it nor its folder nor its secret', async () => {
    mkdirSync(join(folder, 'mail'));
    const path = join(folder, 'not', 'yet', 'r.sqlite');
    const { code, out } = await check(path);
    expect(out).toMatch(/well {3}record: can be made/);
    expect(code).toBe(0);
    expect(existsSync(join(folder, 'not'))).toBe(false);
    expect(readdirSync(folder).sort()).toEqual(['mail', 'thawline.yaml']);
  });
});

describe('a record below /proc, where making a folder is answered as if its parent were missing,', () => {
  it.each([['status'], ['readers', 'list'], ['brief', 'tarn']])(
    'ends %s at once with 4 and a sentence',
    (...words) => {
      write('/proc/thawline/r.sqlite');
      const { status, stderr, signal } = spawnSync(
        process.execPath,
        [...PROGRAM, '--config', config, ...words],
        { encoding: 'utf8', timeout: 60_000 },
      );
      expect(signal).toBeNull();
      expect(stderr).toMatch(/The record \/proc\/thawline\/r\.sqlite could not be opened/);
      expect(status).toBe(4);
    },
  );
});
