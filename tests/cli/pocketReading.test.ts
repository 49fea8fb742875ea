/** From the command line to the page: a reading taken in a pocket moves that pocket's line. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Command } from 'commander';
import { afterAll, afterEach, beforeAll, describe, expect, it, vi } from 'vitest';
import { addBriefCommand } from '../../src/cli/brief.ts';
import { addReadingCommands } from '../../src/cli/reading.ts';
import { openRecord } from '../../src/record/index.ts';
import { recordView, testLake } from '../helpers/weatherRecord.ts';
import { twinSchema } from '../../src/words/index.ts';

const NOW = '2026-03-06T18:00:00Z'; // noon at the lake
let folder: string;
let config: string;

beforeAll(async () => {
  vi.useFakeTimers({ toFake: ['Date'], now: new Date(NOW) });
  folder = mkdtempSync(join(tmpdir(), 'pocket-reading-'));
  config = join(folder, 'thawline.yaml');
  const recordPath = join(folder, 'record.sqlite');
  writeFileSync(
    config,
    `record: ${recordPath}
lakes:
  - id: ${testLake.id}
    name: Tarn Water
    position: { lat: 35.9, lon: -86.4 }
    zone: America/Chicago
    waterBody: highland-reservoir
    meanDepth: 12 m
    area: 25 km2
    pockets:
      - { id: draw, name: North Draw, area: 6000 m2, meanDepth: 1.5 m, watershed: 2.6 km2, landCover: pasture }
      - { id: cove, name: South Cove, area: 9000 m2, meanDepth: 2 m, watershed: 0.4 km2, landCover: mixed }
`,
  );
  const record = await openRecord(recordPath);
  await record.putObservations(recordView({ asOf: NOW }).observations);
  await record.close();
});
afterAll(() => {
  vi.useRealTimers();
  rmSync(folder, { recursive: true, force: true });
});
afterEach(async () => {
  const listed = await run('reading', 'list', testLake.id);
  for (const [id] of listed.matchAll(/^[0-9a-f]{10}(?=:)/gm)) await run('reading', 'remove', id);
});

/** Runs a command line and gives back what it printed. */
async function run(...words: string[]): Promise<string> {
  const printed: string[] = [];
  const log = vi.spyOn(console, 'log').mockImplementation((text: string) => void printed.push(text));
  const write = vi.spyOn(process.stdout, 'write').mockImplementation((text) => {
    printed.push(String(text));
    return true;
  });
  try {
    const program = new Command().exitOverride().option('--config <file>');
    addReadingCommands(program);
    addBriefCommand(program);
    await program.parseAsync(['--config', config, ...words], { from: 'user' });
  } finally {
    log.mockRestore();
    write.mockRestore();
  }
  return printed.join('\n');
}
const add = (...words: string[]): Promise<string> => run('reading', 'add', testLake.id, ...words);

/** The sentence of each pocket in the briefing. */
async function pocketLines(): Promise<Record<string, string>> {
  const page = await run('brief', testLake.id, '--offline', '--units', 'metric', '--format', 'json');
  const { pockets } = twinSchema.parse(JSON.parse(page)).page;
  return Object.fromEntries(pockets.map(({ name, sentence }) => [name, sentence]));
}
const movedC = (text: string): [number, number] => {
  const found = /from (-?[\d.]+) °C.* to (-?[\d.]+) °C/.exec(text);
  return [Number(found?.[1]), Number(found?.[2])];
};

describe('reading add --pocket', () => {
  it('says what it moved, and the next briefing thanks for it in the pocket’s own line', async () => {
    const unread = await pocketLines();
    expect(unread['North Draw']).not.toMatch(/Thank you/);

    const said = await add('11.4C', '--pocket', 'draw', '--at', '11:30');
    expect(said).toMatch(/^Stored [0-9a-f]{10}: 11\.4 °C \(53 °F\) .*North Draw, pocket draw\./);
    expect(said).toMatch(
      /The estimate of North Draw at this hour moved from .* \(\d+ °F\) to .* Thank you\.$/,
    );
    const [was, is] = movedC(said);
    expect(is).toBeGreaterThan(was + 0.5);
    expect(is).toBeLessThan(11.4);

    const read = await pocketLines();
    expect(read['North Draw']).toMatch(/Your reading of .* moved its warmest hour from .* Thank you\.$/);
    const [before, after] = movedC(read['North Draw'] ?? '');
    expect(after).toBeGreaterThan(before + 0.5);
    expect(read['South Cove']).toBe(unread['South Cove']);
    expect(read['South Cove']).not.toMatch(/Thank you/);
    const page = await run('brief', testLake.id, '--offline', '--format', 'json');
    expect(page.replace(/\s+/g, ' ')).toMatch(/Your reading of .{3,15} moved its warmest hour/);
  });

  it('says that the estimate stays where the reading does not move it', async () => {
    const [was] = movedC(await add('11.4C', '--pocket', 'draw', '--at', '11:30'));
    const listed = await run('reading', 'list', testLake.id);
    await run('reading', 'remove', listed.slice(0, 10));
    expect(await add(`${was}C`, '--pocket', 'draw', '--at', '12:00')).toMatch(
      /at this hour stays at [\d.]+ °C \(\d+ °F\)\. Thank you\.$/,
    );
  });

  it('asks when the weather and the pocket speak against it, and tells that it moves nothing when it is confirmed', async () => {
    const words = ['19C', '--pocket', 'draw', '--at', '11:30'];
    await expect(add(...words)).rejects.toThrow(
      /Is this right\? .*above what the weather and the other readings make likely in the pocket.*Nothing was stored/,
    );
    expect(await run('reading', 'list', testLake.id)).toMatch(/No reading/);
    expect(await add(...words, '--yes')).toMatch(/It moves nothing: it is .* above what/);
  });

  it('refuses the future, and asks about the other unit and one against all others in that pocket', async () => {
    await expect(add('9C', '--pocket', 'draw', '--at', '15:00')).rejects.toThrow(/is dated/);
    await expect(add('49C', '--pocket', 'draw')).rejects.toThrow(/other unit/);
    await add('9C', '--pocket', 'draw', '--at', '09:00');
    await expect(add('1.5C', '--pocket', 'draw', '--at', '11:00')).rejects.toThrow(
      /against all other readings/,
    );
  });

  it('too old to say anything of today is stored and told so, without a question', async () => {
    expect(await add('9C', '--pocket', 'draw', '--at', '2026-02-01 07:10')).toMatch(
      /Stored .* It moves nothing: it is more than 21 days old/,
    );
  });

  it('with a clarity alone says that the main arm is another place', async () => {
    expect(await add('--clarity', '0.6m', '--pocket', 'draw')).toMatch(/which it does not change/);
  });

  it('is another reading than one on the main lake at the same minute', async () => {
    await add('9C', '--at', '11:00', '--where', 'ramp');
    await add('9C', '--at', '11:00', '--where', 'ramp', '--pocket', 'draw');
    expect((await run('reading', 'list', testLake.id)).split('\n')).toHaveLength(2);
  });
});

it('a reading on the main lake says what it moved, too', async () => {
  const said = await add('11C', '--at', '11:30');
  expect(said).toMatch(/The estimate of the main lake today moved from .* to .* Thank you\.$/);
  const [was, is] = movedC(said);
  expect(is).toBeGreaterThan(was);
});

it.each([
  [
    'of last summer',
    '22C',
    ['--at', '2025-07-01T11:00'],
    /too old to move today’s estimate|no weather for that day/,
  ],
  ['of last month', '8C', ['--at', '2026-02-01T11:00'], /moved from|too old to move/],
  ['that no water can have', '39C', ['--at', '11:30', '--yes'], /It moves nothing: it is .* above/],
])('a reading %s is not thanked for', async (_, value, rest, expected) => {
  const said = await add(value, ...rest, ...(rest.includes('--yes') ? [] : ['--yes']));
  expect(said).toMatch(expected);
  expect(said).not.toMatch(/Thank you|reading agrees/);
});

it('a clarity of another season is said to tell nothing of today', async () => {
  expect(await add('--clarity', '0.6m', '--at', '2025-07-01T11:00', '--yes')).toMatch(
    /too old to tell today’s clarity/,
  );
});
