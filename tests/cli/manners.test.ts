/** Manners of the command line: pipes that close, files that tie knots, temperatures below zero, hours that come twice. */
import { PROGRAM } from '../builtProgram.ts';
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { closeSync, existsSync, mkdtempSync, openSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import * as z from 'zod';
import { operand } from '../../src/cli/operand.ts';
import { addReadingCommands } from '../../src/cli/reading.ts';
import { addStatusCommand } from '../../src/cli/status.ts';
import { addWhatIfCommand } from '../../src/cli/whatIf.ts';
import { loadConfig, parseYaml } from '../../src/config/index.ts';
import { commandLine, type Said } from '../helpers/commandLine.ts';

const folder = mkdtempSync(join(tmpdir(), 'thawline-cli-'));
const file = (name: string, text: string): string => {
  writeFileSync(join(folder, name), text);
  return join(folder, name);
};
const config = file(
  'thawline.yaml',
  `record: ${join(folder, 'r.sqlite')}
lakes:
  - { id: ossarly, name: Ossarly, position: { lat: 36, lon: -92 }, zone: America/Chicago, waterBody: highland-reservoir, meanDepth: 10 m, area: 10 km2 }
`,
);
const thawline = (...words: string[]): Promise<Said> =>
  commandLine(
    (root) => {
      addWhatIfCommand(root);
      addReadingCommands(root);
      addStatusCommand(root);
    },
    '--config',
    config,
    ...words,
  );

describe('a pipe that closes early', () => {
  it('ends the program quietly', async () => {
    const child = spawn(process.execPath, [...PROGRAM, 'what-if', '--template'], {
      stdio: ['ignore', 'pipe', 'pipe'],
    });
    child.stdout.destroy();
    let err = '';
    child.stderr.on('data', (chunk: Buffer) => (err += chunk.toString()));
    const [code] = (await once(child, 'close')) as [number | null];
    expect({ code, err }).toEqual({ code: 0, err: '' });
  });
});

describe('an output that takes no more', () => {
  interface Ended {
    readonly code: number | null;
    readonly err: string;
  }
  /** @param output descriptor; null for a pipe whose reader has gone */
  async function ended(output: number | null, words: readonly string[], input = ''): Promise<Ended> {
    const child = spawn(process.execPath, [...PROGRAM, '--config', config, ...words], {
      stdio: ['pipe', output ?? 'pipe', 'pipe'],
      env: { ...process.env, THAWLINE_SMTP_URL: '' },
    });
    child.stdout?.destroy();
    child.stdin?.on('error', () => undefined);
    child.stdin?.end(input);
    let err = '';
    child.stderr?.on('data', (chunk: Buffer) => (err += chunk.toString()));
    const [code] = (await once(child, 'close')) as [number | null];
    return { code, err };
  }

  it('leaves a verdict as it is', async () => {
    const bad = file(
      'unmailed.yaml',
      `${readFileSync(config, 'utf8')}mail: { transport: smtp, smtpUrlEnv: THAWLINE_SMTP_URL }\n`,
    );
    const words = ['--config', bad, 'check', '--no-services', '--no-links'];
    const whole = openSync(join(folder, 'whole.txt'), 'w');
    const { code } = await ended(whole, words);
    closeSync(whole);
    expect(readFileSync(join(folder, 'whole.txt'), 'utf8').split('\n').length).toBeGreaterThan(2);
    expect(code).toBe(3);
    expect(await ended(null, words)).toMatchObject({ code: 3 });
  });

  it('ends a command that would go on for ever', async () => {
    const lines = `${JSON.stringify({ nothing: 'known' })}\n`.repeat(20_000);
    expect((await ended(null, ['what-if', '-', '--lines'], lines)).err).not.toMatch(
      /EPIPE|fault of the program/,
    );
  });

  it.skipIf(!existsSync('/dev/full'))('because the disk is full is one sentence and no success', async () => {
    const full = openSync('/dev/full', 'w');
    const { code, err } = await ended(full, ['what-if', '--template']);
    closeSync(full);
    expect({ code, err }).toEqual({
      code: 2,
      err: 'thawline: What was printed could not be written to its end (ENOSPC): make room, or print elsewhere.\n',
    });
  });
});

describe('references of a YAML file', () => {
  const read = (text: string): unknown => parseYaml(text, 'x.yaml', z.any());
  const bomb = ['a0: &a0 [x, x, x, x, x, x, x, x, x, x]'];
  for (let n = 1; n < 9; n += 1)
    bomb.push(
      `a${n}: &a${n} [${Array(10)
        .fill(`*a${n - 1}`)
        .join(', ')}]`,
    );

  it('that explode are refused with the line of the first', () => {
    expect(() => read(bomb.join('\n'))).toThrow(/^x\.yaml:2:\d+: the references.*Write the parts out/);
  });

  it('that lead back into themselves are refused with their line', () => {
    expect(() => read('one: 1\ntwo: &two\n  three: *two\n')).toThrow(/^x\.yaml:3:10: \*two stands inside/);
  });

  it('that are used as they are meant are read', () => {
    expect(read('base: &b { x: 1 }\nlist: [*b, *b]\n')).toEqual({
      base: { x: 1 },
      list: [{ x: 1 }, { x: 1 }],
    });
  });

  it('of a configuration end with 3 and its line, of conditions with 2', async () => {
    const knot = file('knot.yaml', 'lakes: &l\n  - *l\n');
    await expect(loadConfig(knot)).rejects.toMatchObject({
      exitCode: 3,
      message: expect.stringMatching(/knot\.yaml:2:5/) as string,
    });
    expect(await thawline('what-if', knot)).toMatchObject({
      code: 2,
      err: expect.stringMatching(/knot\.yaml:2:5/) as string,
    });
  });
});

describe('what-if', () => {
  it.each([
    ['an unknown field', 'water: { mian: 50 F }\n'],
    ['no YAML', 'water: [\n'],
    ['a wrong unit', 'water: { main: 50 parsecs }\n'],
  ])('ends with 2 at %s', async (name, text) => {
    const bad = file(`${name.replaceAll(' ', '-')}.yaml`, text);
    expect(await thawline('what-if', bad)).toMatchObject({
      code: 2,
      err: expect.stringMatching(/\.yaml:\d+:\d+: /) as string,
    });
  });

  it('says with --vary which date it assumes', async () => {
    const form = file('form.yaml', 'water: { main: 50 F }\n');
    const { code, out } = await thawline('what-if', form, '--vary', 'water.main=45 F..60 F');
    expect(code).toBe(0);
    expect(out).toMatch(/assumed: .*date/i);
  });
});

describe('a reading', () => {
  it('below zero is a temperature and no option', async () => {
    const { code, err } = await thawline('reading', 'add', 'ossarly', operand('-3C'));
    expect(err).not.toMatch(/unknown option/);
    // Water of -3 °C is doubted, and asked back.
    expect([code, err]).toEqual([2, expect.stringMatching(/Is this right\?|-3/)]);
    expect(await thawline('reading', 'add', 'ossarly', operand('-0.1C'), '--yes')).toMatchObject({ code: 0 });
  });

  it('at an hour that came twice is taken with a note, and can be given with its offset', async () => {
    const twice = await thawline('reading', 'add', 'ossarly', '12C', '--at', '2025-11-02 01:30', '--yes');
    expect(twice.code).toBe(0);
    expect(twice.out).toMatch(/show 01:30 twice.*taken as 01:30 UTC-05:00.*--at "2025-11-02T01:30-06:00"/);
    const second = await thawline(
      'reading',
      'add',
      'ossarly',
      '12.5C',
      '--at',
      '2025-11-02T01:30-06:00',
      '--yes',
    );
    expect(second.code).toBe(0);
    expect(second.out).not.toMatch(/twice/);
    expect(
      (await thawline('reading', 'add', 'ossarly', '12C', '--at', '2025-11-01 01:30', '--yes')).out,
    ).not.toMatch(/twice/);
  });
});
