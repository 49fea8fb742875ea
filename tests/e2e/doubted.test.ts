/** Replies that are wrong as a whole, over real HTTP: what the page says then, and what it must not. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { addBriefCommand } from '../../src/cli/brief.ts';
import { WEATHER_UNITS, type DemoData } from '../../src/cli/demoServer.ts';
import { commandLine } from '../helpers/commandLine.ts';
import { startReplayServer, type ReplayServer, type UsgsReplayRow } from '../helpers/replayServer.ts';

const data = JSON.parse(readFileSync('fixtures/demo/ossarly.json', 'utf8')) as DemoData;
const AS_OF_MS = Date.parse(data.asOf);
const HOUR_MS = 3_600_000;

let folder: string;
let server: ReplayServer | undefined;

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'thawline-doubted-'));
});
afterEach(async () => {
  await server?.close();
  rmSync(folder, { recursive: true, force: true });
});

interface Fault {
  readonly airC?: (airC: number) => number;
  readonly airUnit?: string;
  readonly levelFt?: (levelFt: number, atMs: number) => number;
}

/** The page as text, its lines joined, of a morning whose services have a fault. */
async function page({ airC = (c) => c, airUnit, levelFt = (ft) => ft }: Fault): Promise<string> {
  const weather = (): unknown => ({
    latitude: 35.9,
    longitude: -86.4,
    utc_offset_seconds: 0,
    timezone: 'GMT',
    hourly_units: {
      time: 'unixtime',
      ...WEATHER_UNITS,
      ...(airUnit === undefined ? {} : { temperature_2m: airUnit }),
    },
    hourly: { ...data.hourly, temperature_2m: data.hourly['temperature_2m']?.map(airC) },
  });
  const usgs = data.gauges.time.map((time, i): UsgsReplayRow => {
    const atMs = time * 1000;
    const value = String(levelFt(data.gauges.levelFt[i] ?? NaN, atMs));
    return {
      site: 'USGS-00000101',
      parameter: '00062',
      series: 'level',
      atMs,
      value,
      unit: 'ft',
    };
  });
  server = await startReplayServer({ openMeteo: weather, openMeteoArchive: weather, usgs });
  const { baseUrls } = server;
  const path = join(folder, 'thawline.yaml');
  writeFileSync(
    path,
    readFileSync('config/thawline.example.yaml', 'utf8')
      .replace('record: data/thawline.sqlite', `record: ${join(folder, 'record.sqlite')}`)
      .replace(
        'services:\n',
        `services:\n  timeoutMs: 1500\n  baseUrls: { usgs: "${baseUrls.usgs}", open-meteo: "${baseUrls['open-meteo']}", open-meteo-archive: "${baseUrls['open-meteo-archive']}" }\n`,
      ),
  );
  const run = await commandLine(
    addBriefCommand,
    ...['--config', path, 'brief', 'ossarly', '--as-of', data.asOf, '--format', 'text', '--units', 'us'],
  );
  expect(run, run.err).toMatchObject({ code: 0 });
  return run.out.replaceAll(/\s+/g, ' ');
}

it('metres called feet in the last six hours are no level and no fall', async () => {
  const text = await page({
    levelFt: (ft, atMs) => (atMs > AS_OF_MS - 6 * HOUR_MS ? ft * 0.3048 : ft),
  });
  expect(text).toContain('Level not known');
  expect(text).toMatch(/a step of 42[78]\.\d ft that no water makes/);
  expect(text).toContain('the level and its changes are not known');
  expect(text).not.toMatch(/18[78]\.\d ft|[-+]42\d\.\d ft|level (fell|rose)/i);
}, 60_000);

describe('air in another unit than it says', () => {
  it.each([
    ['degF', { airC: (c: number) => c * 1.8 + 32 }],
    ['kelvin', { airC: (c: number) => c + 273.15 }],
    ['a unit that is none', { airUnit: 'furlong' }],
  ])(
    '%s: no air, no heat, and wind, rain and cloud as they are',
    async (_, fault) => {
      const text = await page(fault);
      expect(text).toContain('Air not known');
      expect(text).toContain('Air temperature is unknown');
      expect(text).toContain('Of the weather air temperature is not known');
      expect(text).not.toMatch(/feels like|WIND: unknown|No weather at all|Rain not known|Cloud not known/);
      expect(text).toMatch(/Wind (from|about)|(Calm|Hardly)/);
    },
    60_000,
  );
});
