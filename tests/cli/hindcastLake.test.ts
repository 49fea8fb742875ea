/** A lake's own archive behind the same command: weather and readings of its record, the same columns and scores. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { addHindcastCommand } from '../../src/cli/hindcast.ts';
import { openRecord } from '../../src/record/index.ts';
import { commandLine } from '../helpers/commandLine.ts';
import { recordView } from '../helpers/weatherRecord.ts';

const DAY = 86_400_000;
const PAST = 90;
let folder: string;
let config: string;
const out = (): string => join(folder, 'estimates.csv');
const hindcast = (...words: string[]) =>
  commandLine(addHindcastCommand, '--config', config, 'hindcast', ...words, '--out', out());

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'hindcast-lake-'));
  config = join(folder, 'thawline.yaml');
  writeFileSync(
    config,
    `record: record.sqlite
lakes:
  - { id: tarn, name: Tarn Water, position: { lat: 35.9, lon: -86.4 }, zone: America/Chicago, waterBody: highland-reservoir, meanDepth: 12 m, area: 25 km2 }
  - { id: empty, name: Empty Water, position: { lat: 35.9, lon: -86.4 }, zone: America/Chicago, waterBody: highland-reservoir, meanDepth: 12 m, area: 25 km2 }
`,
  );
  const record = await openRecord(join(folder, 'record.sqlite'));
  const asOf = new Date(Math.floor(Date.now() / 3_600_000) * 3_600_000).toISOString();
  const view = recordView({ asOf, pastDays: PAST, weather: () => ({ air: 15, wind: 3 }) });
  await record.putObservations(view.observations);
  for (let week = 1; week <= 10; week += 1)
    await record.putReading({
      id: `r${week}`,
      lake: 'tarn',
      atMs: Date.parse(asOf) - week * 7 * DAY,
      waterC: 15.5,
      depthM: 1,
      sdC: 0.3,
      where: 'ramp',
    });
  await record.close();
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('hindcast of a lake of the configuration', () => {
  it('estimates every past day of its record and scores its readings', async () => {
    const { code, out: said, err } = await hindcast('tarn', '--json');
    expect({ code, err }).toEqual({ code: 0, err: '' });
    const report = JSON.parse(said) as {
      days: number;
      readings: number;
      score: { model: { rmseC: number } };
    };
    expect(report.days).toBeGreaterThan(PAST - 3);
    expect(report.readings).toBe(10);
    expect(report.score.model.rmseC).toBeLessThan(2);
    const [head, ...lines] = readFileSync(out(), 'utf8').trim().split('\n');
    expect(head).toBe('date,water_c,low_c,high_c,reading_age_days');
    expect(lines).toHaveLength(report.days);
    // Nothing of today: it is not over.
    expect(lines.at(-1)?.slice(0, 10).localeCompare(new Date().toISOString().slice(0, 10))).toBe(-1);
  });

  it('takes nothing besides that the record says, and says which', async () => {
    const { code, err } = await hindcast('tarn', '--lat', '36', '--mean-depth', '8');
    expect(code).toBe(2);
    expect(err).toContain('what --lat, --mean-depth would: leave them out');
  });

  it('of a lake without weather says how to have it', async () => {
    const { code, err } = await hindcast('empty');
    expect(code).toBe(2);
    expect(err).toContain('thawline replay empty');
  });

  it('without a lake still asks for its file and latitude', async () => {
    expect((await hindcast()).err).toContain('--weather is missing');
    expect((await hindcast('--weather', 'x.csv')).err).toContain('--lat is missing');
  });
});
