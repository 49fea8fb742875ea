/** The hour of a reading is the wall clock's at the lake, also on the days when the clocks change. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Command } from 'commander';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { addReadingCommands } from '../../src/cli/reading.ts';

let folder: string;
let said: string[];
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'reading-time-'));
  said = [];
  writeFileSync(
    join(folder, 'thawline.yaml'),
    `record: ${join(folder, 'record.sqlite')}
lakes:
  - id: tarn
    name: Tarn Water
    position: { lat: 35.9, lon: -86.4 }
    zone: America/Chicago
    waterBody: highland-reservoir
    meanDepth: 12 m
    area: 25 km2
`,
  );
  vi.spyOn(console, 'log').mockImplementation((text: string) => void said.push(text));
});
afterEach(() => {
  vi.useRealTimers();
  vi.restoreAllMocks();
  rmSync(folder, { recursive: true, force: true });
});

async function run(...words: string[]): Promise<string> {
  const program = new Command().exitOverride().option('--config <file>');
  addReadingCommands(program);
  await program.parseAsync(['--config', join(folder, 'thawline.yaml'), 'reading', ...words], {
    from: 'user',
  });
  return said.at(-1) ?? '';
}
const readAt = (now: string, at: string): Promise<string> => {
  vi.useFakeTimers({ toFake: ['Date'], now: new Date(now) });
  return run('add', 'tarn', '9.4C', '--at', at);
};

// In the United States the clocks go from 02:00 to 03:00 on the second Sunday of March, back on the first of November.
describe('reading add --at', () => {
  it.each([
    ['2026-03-09T15:00:00Z', '2026-03-08 02:30'],
    ['2026-03-09T15:00:00Z', '2026-03-08T02:00'],
    ['2026-03-08T15:00:00Z', '02:30'],
    ['2026-03-08T15:00:00Z', '2:59'],
  ])(
    'an hour that the clocks skip is refused (now %s, read at %s), and nothing is stored',
    async (now, at) => {
      await expect(readAt(now, at)).rejects.toThrow(
        /at Tarn Water the clocks skip 02:\d\d on 2026-03-08; write the time that the clock showed, such as 03:\d\d\./,
      );
      expect(await run('list', 'tarn')).toMatch(/No reading/);
    },
  );

  it.each([
    ['2026-03-08T15:00:00Z', '01:59', '2026-03-08T07:59:00.000Z'],
    ['2026-03-08T15:00:00Z', '03:00', '2026-03-08T08:00:00.000Z'],
    ['2026-03-09T15:00:00Z', '2026-03-08 07:10', '2026-03-08T12:10:00.000Z'],
    // At this instant the date of Greenwich is already the next one.
    ['2026-03-08T03:00:00Z', '20:30', '2026-03-08T02:30:00.000Z'],
    ['2026-11-02T15:00:00Z', '2026-11-01 02:30', '2026-11-01T08:30:00.000Z'],
    ['2026-03-07T15:00:00Z', '02:30', '2026-03-07T08:30:00.000Z'],
  ])('now %s, "%s" is %s', async (now, at, instant) => {
    await readAt(now, at);
    const [one] = JSON.parse(await run('list', 'tarn', '--json')) as { atMs: number }[];
    expect(new Date(one!.atMs).toISOString()).toBe(instant);
  });

  it('a time that is none is refused with an example', async () => {
    await expect(readAt('2026-03-09T15:00:00Z', '25:10')).rejects.toThrow(/write 07:10 for today/);
  });
});

describe('a reading dated in the future', () => {
  it.each(['2026-03-11 12:00', '2030-03-09 12:00', '23:50', '10:11'])(
    'at %s is refused, whatever is said',
    async (at) => {
      const now = '2026-03-09T15:00:00Z';
      for (const more of [[], ['--yes']]) {
        vi.useFakeTimers({ toFake: ['Date'], now: new Date(now) });
        const add = run('add', 'tarn', '9.4C', '--at', at, ...more);
        await expect(add).rejects.toThrow(/is still to come.*Correct its day or hour/);
      }
      expect(await run('list', 'tarn')).toBe('No reading of Tarn Water yet.');
    },
  );

  it('within what clocks differ is taken by who says that it is right', async () => {
    vi.useFakeTimers({ toFake: ['Date'], now: new Date('2026-03-09T15:00:00Z') });
    expect(await run('add', 'tarn', '9.4C', '--at', '10:09', '--yes')).toContain('Stored');
  });
});
