/** Files are replaced whole; links, devices and pipes stay what they are. */
import { PROGRAM } from '../builtProgram.ts';
import { execFileSync, spawn } from 'node:child_process';
import { once } from 'node:events';
import {
  chmodSync,
  existsSync,
  lstatSync,
  mkdirSync,
  mkdtempSync,
  openSync,
  readFileSync,
  readdirSync,
  readlinkSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { writeWhole } from '../../src/cli/output.ts';
import { failure } from '../helpers/hindcastRun.ts';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'output-'));
});
afterEach(() => rmSync(folder, { recursive: true }));
const inside = (name: string): string => join(folder, name);

describe('a regular file', () => {
  it('is made with its folder, and replaced as a whole by another one of the same rights', () => {
    writeWhole(inside('new/a.csv'), 'one');
    chmodSync(inside('new/a.csv'), 0o600);
    const reader = openSync(inside('new/a.csv'), 'r');
    writeWhole(inside('new/a.csv'), 'two');
    // Who had it open goes on reading the old one, which was not touched.
    expect(readFileSync(reader, 'utf8')).toBe('one');
    expect(readFileSync(inside('new/a.csv'), 'utf8')).toBe('two');
    expect(statSync(inside('new/a.csv')).mode & 0o777).toBe(0o600);
    expect(readdirSync(inside('new'))).toEqual(['a.csv']);
  });

  it('stays as it was when it cannot be written', () => {
    mkdirSync(inside('a.csv'));
    expect(failure(() => writeWhole(inside('a.csv'), 'x')).exitCode).toBe(2);
    writeFileSync(inside('plain'), '');
    expect(failure(() => writeWhole(inside('plain/b.csv'), 'x')).message).toMatch(/cannot be written/);
    expect(readdirSync(folder).sort()).toEqual(['a.csv', 'plain']);
  });
});

describe('a link', () => {
  it('stays a link, and the file it leads to is replaced beside itself', () => {
    mkdirSync(inside('far'));
    writeFileSync(inside('far/real.csv'), 'old');
    symlinkSync('far/real.csv', inside('link.csv'));
    symlinkSync('link.csv', inside('second.csv'));
    writeWhole(inside('second.csv'), 'new');
    expect(readlinkSync(inside('second.csv'))).toBe('link.csv');
    expect(readlinkSync(inside('link.csv'))).toBe('far/real.csv');
    expect(readFileSync(inside('far/real.csv'), 'utf8')).toBe('new');
    expect(readdirSync(inside('far'))).toEqual(['real.csv']);
  });

  it('to a file that is not there yet makes that file', () => {
    symlinkSync('later.csv', inside('link.csv'));
    writeWhole(inside('link.csv'), 'new');
    expect(lstatSync(inside('link.csv')).isSymbolicLink()).toBe(true);
    expect(readFileSync(inside('later.csv'), 'utf8')).toBe('new');
  });

  it('to itself is an error', () => {
    symlinkSync('loop', inside('loop'));
    expect(failure(() => writeWhole(inside('loop'), 'x')).exitCode).toBe(2);
  });
});

// Through links into the test's own folder, so that a fault would replace the link and never the machine's device.
describe('a device or a pipe', () => {
  it('takes the bytes and stays', () => {
    symlinkSync('/dev/null', inside('null'));
    writeWhole(inside('null'), 'x');
    expect(readlinkSync(inside('null'))).toBe('/dev/null');
    expect(statSync(inside('null')).isCharacterDevice()).toBe(true);
  });

  it.runIf(existsSync('/dev/full'))('that takes none is an error, and stays', () => {
    symlinkSync('/dev/full', inside('full'));
    const error = failure(() => writeWhole(inside('full'), 'x'));
    expect(error.message).toMatch(/cannot be written/);
    expect(error.exitCode).toBe(2);
    expect(readdirSync(folder)).toEqual(['full']);
    expect(statSync(inside('full')).isCharacterDevice()).toBe(true);
  });

  it('with a reader at its other end is written into', async () => {
    execFileSync('mkfifo', [inside('pipe')]);
    const reader = spawn('cat', [inside('pipe')]);
    let read = '';
    reader.stdout.setEncoding('utf8').on('data', (text: string) => (read += text));
    writeWhole(inside('pipe'), 'through');
    await once(reader, 'close');
    expect(read).toBe('through');
    expect(lstatSync(inside('pipe')).isFIFO()).toBe(true);
    expect(readdirSync(folder)).toEqual(['pipe']);
  });

  it.runIf(existsSync('/proc/self/fd'))(
    'that is the own standard output takes file and report, one after the other',
    () => {
      writeFileSync(inside('w.csv'), 'date,air_c\n2020-01-01,4\n2020-01-02,5\n');
      symlinkSync('/proc/self/fd/1', inside('stdout'));
      const words = ['hindcast', '--weather', inside('w.csv'), '--lat', '40', '--mean-depth', '5'];
      const run = (output: 'pipe' | number): string =>
        execFileSync(process.execPath, [...PROGRAM, ...words, '--out', inside('stdout')], {
          stdio: ['ignore', output, 'inherit'],
          encoding: 'utf8',
        }) ?? '';
      const both = /^date,water_c,low_c,high_c,reading_age_days\n2020-01-01.*\n2020-01-02.*\n2 days from /;
      expect(run('pipe')).toMatch(both);
      run(openSync(inside('report.txt'), 'w'));
      expect(readFileSync(inside('report.txt'), 'utf8')).toMatch(both);
      expect(readlinkSync(inside('stdout'))).toBe('/proc/self/fd/1');
      expect(readdirSync(folder).sort()).toEqual(['report.txt', 'stdout', 'w.csv']);
    },
  );
});
