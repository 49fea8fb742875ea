import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Command } from 'commander';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { addReadingCommands } from '../../src/cli/reading.ts';
import { addRecordCommands, gapStrip } from '../../src/cli/record.ts';
import { openRecord } from '../../src/record/index.ts';
import { HOUR, hourly, row } from './rows.ts';

let folder: string;
let config: string;
let recordPath: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'record-cli-'));
  config = join(folder, 'thawline.yaml');
  recordPath = join(folder, 'record.sqlite');
  writeFileSync(
    config,
    `record: ${recordPath}
lakes:
  - id: pine-hollow
    name: Pine Hollow Lake
    position: { lat: 35.5, lon: -92.5 }
    zone: America/Chicago
    waterBody: highland-reservoir
    meanDepth: 40 ft
    area: 12 km2
`,
  );
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

/** Runs a command line and gives back what it printed. */
async function run(...words: string[]): Promise<string> {
  const printed: string[] = [];
  const log = vi.spyOn(console, 'log').mockImplementation((text: string) => void printed.push(text));
  try {
    const program = new Command().exitOverride().option('--config <file>');
    addRecordCommands(program);
    addReadingCommands(program);
    await program.parseAsync(['--config', config, ...words], { from: 'user' });
  } finally {
    log.mockRestore();
  }
  return printed.join('\n');
}

it('record copy refuses a file that a process has open, before it asks for the other database', async () => {
  const copy = () => run('record', 'copy', '--to', 'postgres', '--address-env', 'NOT_SET_ANYWHERE');
  await expect(copy()).rejects.toThrow(/NOT_SET_ANYWHERE/);
  const open = await openRecord(recordPath);
  await expect(copy()).rejects.toThrow(
    /is open in another process: stop "thawline run".*Nothing was changed/,
  );
  await open.close();
});

async function fill(): Promise<void> {
  const record = await openRecord(recordPath);
  const now = Math.floor(Date.now() / HOUR) * HOUR;
  await record.putObservations(
    hourly([9, 9.1, 9.2, 9.3]).map((o, i) => ({ ...o, atMs: now - (3 - i) * HOUR })),
  );
  await record.putObservations([row({ variable: 'level', value: -999_999, atMs: now })]);
  await record.close();
}

describe('thawline reading', () => {
  it('stores a reading, lists it, removes it', async () => {
    expect(await run('reading', 'add', 'pine-hollow', '49F', '--depth', '1ft', '--where', 'ramp')).toMatch(
      /^Stored [0-9a-f]{10}: 9\.4 °C \(49 °F\) at .*, 0\.3 m deep, ramp/,
    );
    const listed = await run('reading', 'list', 'pine-hollow');
    expect(listed).toMatch(/9\.4 °C/);
    const id = listed.slice(0, 10);
    expect(await run('reading', 'remove', id)).toBe(`Removed ${id}.`);
    expect(await run('reading', 'list', 'pine-hollow')).toMatch(/No reading/);
  });

  it('told twice is one reading', async () => {
    const words = ['reading', 'add', 'pine-hollow', '9.4C', '--at', '2026-03-01 07:10'];
    expect(await run(...words)).toMatch(/^Stored/);
    expect(await run(...words)).toMatch(/^Known already, and kept once: .*9\.4 °C .* 07:10/);
    expect((await run('reading', 'list', 'pine-hollow')).split('\n')).toHaveLength(1);
    expect(await run('reading', 'list', 'pine-hollow')).toMatch(/Sun 2026-03-01 07:10/);
  });

  it('asks about a wrong unit and stores nothing until it is confirmed', async () => {
    const words = ['reading', 'add', 'pine-hollow', '49C', '--at', '2026-03-01 07:10'];
    await expect(run(...words)).rejects.toThrow(/Is this right\?.*other unit.*--yes/);
    expect(await run('reading', 'list', 'pine-hollow')).toMatch(/No reading/);
    expect(await run(...words, '--yes')).toMatch(/^Stored/);
  });

  it.each([
    [['reading', 'add', 'pine-hollow', '9.4'], /with its unit/],
    [['reading', 'add', 'pine-hollow'], /needs a temperature/],
    [['reading', 'add', 'elsewhere', '9C'], /Known lakes: pine-hollow/],
    [['reading', 'add', 'pine-hollow', '9C', '--at', 'noon'], /--at "noon"/],
    [['reading', 'add', 'pine-hollow', '9C', '--pocket', 'x'], /no pocket "x"/],
    [['reading', 'remove', 'nosuch'], /no reading "nosuch"/],
  ])('%j says what to mend', async (words, sentence) => {
    await expect(run(...words)).rejects.toThrow(sentence);
  });
});

describe('thawline record', () => {
  it('shows value, freshness, source and gaps of each series', async () => {
    await fill();
    const shown = await run('record', 'show', 'pine-hollow', '--units', 'us');
    expect(shown).toMatch(/water_temp: 49 °F, fresh, \d+ min old/);
    expect(shown).toMatch(/usgs S1 observed/);
    expect(shown).toMatch(/level: no value believed, stale, 1 doubted/);
    expect(shown).toMatch(/\.{29}\+|\.{28}\+{2}/);
  });

  it('lists what is doubted with the raw value and the reason', async () => {
    await fill();
    expect(await run('record', 'doubts', 'pine-hollow')).toMatch(
      /level -999999\.00 m, .*\n.*impossible value/,
    );
    expect(JSON.parse(await run('record', 'doubts', 'pine-hollow', '--json'))).toHaveLength(1);
  });

  it('exports to a file', async () => {
    await fill();
    const out = join(folder, 'out.csv');
    await run('record', 'export', 'pine-hollow', '--out', out);
    expect(readFileSync(out, 'utf8').trimEnd().split('\r\n')).toHaveLength(6);
    await run('record', 'export', 'pine-hollow', '--out', out, '--to', '2001-01-01');
    expect(readFileSync(out, 'utf8').trimEnd().split('\r\n')).toHaveLength(1);
  });

  it('compacts and says what went', async () => {
    await fill();
    expect(await run('record', 'compact')).toMatch(/removed 0 forecast values/);
  });

  it('draws a day as complete, part or nothing', () => {
    expect(gapStrip([0, 0.1, 0.89, 0.9, 1])).toBe('.++##');
  });
});
