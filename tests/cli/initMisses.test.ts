/** `init` where nobody can be asked: what it misses is said all at once, and what was given is written as it is read. */
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, afterEach, beforeEach, describe, expect, it } from 'vitest';
import { addInitCommand } from '../../src/cli/init.ts';
import { loadConfig } from '../../src/config/index.ts';
import { commandLine, type Said } from '../helpers/commandLine.ts';

const folder = mkdtempSync(join(tmpdir(), 'thawline-init-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const config = join(folder, 'thawline.yaml');

const wasTerminal = process.stdin.isTTY;
beforeEach(() => (process.stdin.isTTY = false));
afterEach(() => (process.stdin.isTTY = wasTerminal));

const init = (...words: string[]): Promise<Said> =>
  commandLine(addInitCommand, '--config', config, 'init', '--no-look-up', ...words);

const LAKE = ['--name', 'Tarn', '--lat', '35.5', '--lon=-92.5', '--zone', 'America/Chicago'];
const SHAPE = ['--mean-depth', '40 ft', '--area', '12 km2', '--contact', 'desk@example.org'];

describe('init without a terminal', () => {
  it('and with nothing given names all that it misses, and how to be asked', async () => {
    const { code, err } = await init();
    for (const option of ['--name', '--place', '--lat', '--mean-depth', '--area', '--contact'])
      expect(err).toContain(option);
    expect(err).toMatch(/run it on a terminal and be asked; this input is none/);
    expect(err).not.toContain('leave --yes out');
    expect(code).toBe(2);
    expect(existsSync(config)).toBe(false);
  });

  it('names only what is missing, and under --yes says to leave it out', async () => {
    const { err } = await init('--yes', ...LAKE, '--area', '12 km2');
    expect(err).toMatch(/^init misses --mean-depth .*; --contact .*leave --yes out and be asked/);
    expect(err).not.toMatch(/--name|--area/);
  });

  it.each([
    ['a fetch', ['--fetch', '3.5 mi'], 5633],
    ['nothing of the open water', [], undefined],
  ])('writes %s as it is read', async (_, words, metres) => {
    rmSync(folder, { recursive: true, force: true });
    expect(await init(...LAKE, ...SHAPE, ...words)).toMatchObject({ code: 0, err: '' });
    const { lakes } = await loadConfig(config);
    const { fetchM } = lakes[0] ?? {};
    expect(fetchM === undefined ? undefined : Math.round(fetchM)).toBe(metres);
    if (metres === undefined)
      expect(readFileSync(config, 'utf8')).toMatch(/# fetch: 3\.5 mi .*waves are not/);
  });
});
