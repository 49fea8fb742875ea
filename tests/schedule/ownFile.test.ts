/** A logger's file of the operator's own: where it lies, and what of its faults reaches whom. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, beforeEach, expect, it } from 'vitest';
import { loadConfig } from '../../src/config/index.ts';
import { loadRules } from '../../src/config/rules.ts';
import { openRecord, type RecordStore } from '../../src/record/index.ts';
import { renderBriefing } from '../../src/render/index.ts';
import { clientFor, makeBriefing } from '../../src/schedule/index.ts';
import { HOUR_MS } from '../../src/units/time/index.ts';

const NOW = Date.UTC(2026, 2, 5, 12);
const folder = mkdtempSync(join(tmpdir(), 'own-file-'));
const elsewhere = process.cwd();
let record: RecordStore;

beforeAll(() => {
  mkdirSync(join(folder, 'station'));
  writeFileSync(
    join(folder, 'station', 'thawline.yaml'),
    `services: { timeoutMs: 300, baseUrls: { open-meteo: 'http://127.0.0.1:9', open-meteo-archive: 'http://127.0.0.1:9' } }
lakes:
  - id: tarn
    name: Tarn Water
    position: { lat: 35.9, lon: -86.4 }
    zone: America/Chicago
    waterBody: highland-reservoir
    meanDepth: 12 m
    area: 25 km2
    weather: [open-meteo]
    gauges:
      - { service: csv, station: dock, variable: water_temp, where: dock, csv: { path: logger.csv, timeColumn: time, valueColumn: water, unit: C, zone: America/Chicago } }
`,
  );
});
beforeEach(async () => {
  record = await openRecord(':memory:');
});
afterEach(() => record.close());
afterAll(() => rmSync(folder, { recursive: true }));

async function morning(rows: string | null): Promise<{ text: string; json: string; problems: string[] }> {
  const path = join(folder, 'station', 'logger.csv');
  rmSync(path, { force: true });
  if (rows !== null) writeFileSync(path, `time,water\n${rows}`);
  const config = await loadConfig(join(folder, 'station', 'thawline.yaml'));
  const client = clientFor(config, record);
  const ctx = { config, record, rules: loadRules(), env: {}, client };
  const { document, view } = await makeBriefing(ctx, 'tarn', { asOfMs: NOW, offline: false });
  await client.close();
  const { text } = await renderBriefing(document, { units: 'metric', form: 'full', pictures: false });
  const problems = view.retrievals.flatMap(({ source, problem }) =>
    source === 'csv' && problem !== '' ? [problem] : [],
  );
  return { text, json: JSON.stringify(document), problems };
}

it('is found beside the configuration, whatever folder the program was started in', async () => {
  process.chdir(tmpdir());
  try {
    const { text } = await morning('2026-03-05T11:30Z,9.4\n2026-03-05T11:45Z,9.5\n');
    expect(text).toMatch(/9\.\d °C/);
    expect(text).not.toContain('Own logger file');
  } finally {
    process.chdir(elsewhere);
  }
});

it('that is not there is told to the operator with its place and why, to readers without', async () => {
  const { text, json, problems } = await morning(null);
  const path = join(folder, 'station', 'logger.csv');
  expect(problems).toEqual([expect.stringContaining(`The logger file ${path} could not be read (ENOENT)`)]);
  expect(text).toMatch(/Own logger file could not be\s+read at 06:00/);
  expect(json).not.toContain('logger.csv');
});

it('of which a row cannot be read is used, and readers hear that without file, line and column', async () => {
  const at = new Date(NOW - HOUR_MS).toISOString();
  const { text, json, problems } = await morning(`${at},9.4\n2026-03-05T11:30Z,--\n`);
  expect(problems).toEqual([expect.stringMatching(/logger\.csv, line 3: column "water": found "--"/)]);
  expect(text.replace(/\s+/g, ' ')).toContain(
    'Own logger file was read at 06:00, but not all of it was used.',
  );
  expect(text).toMatch(/9\.4 °C/);
  expect(json).not.toMatch(/logger\.csv|column/);
});
