/**
 * A newcomer, from the packed program in an empty folder to the first mail and out again: init, check, run, the mail
 * read, its one-click link posted to, the reader gone. Loopback services and servers, no pause for a person, nothing on
 * the error channel.
 */
import { execFileSync, spawn, type ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { DateTime } from 'luxon';
import { simpleParser, type ParsedMail } from 'mailparser';
import { SMTPServer } from 'smtp-server';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startDemoServer, type DemoData } from '../../src/cli/demoServer.ts';

const ZONE = 'America/Chicago';
const ADDRESS = 'ann@example.org';
let folder: string;
let services: Server;
let behind: Awaited<ReturnType<typeof startDemoServer>>;
let smtp: SMTPServer;
let mails: ParsedMail[];
let child: ChildProcess | undefined;

/** The demonstration's invented data, moved so that they were made for this hour. */
function movedToNow(): DemoData {
  const data = JSON.parse(readFileSync('fixtures/demo/ossarly.json', 'utf8')) as DemoData;
  const byS = Math.floor((Date.now() - Date.parse(data.asOf)) / 3_600_000) * 3600;
  const days = Math.floor(byS / 86_400);
  const { time = [], ...series } = data.hourly;
  return {
    ...data,
    asOf: new Date(Date.parse(data.asOf) + byS * 1000).toISOString(),
    hourly: { time: time.map((at) => at + byS), ...series },
    gauges: { ...data.gauges, time: data.gauges.time.map((at) => at + byS) },
    dailyLevels: {
      ...data.dailyLevels,
      date: data.dailyLevels.date.map(
        (date) => DateTime.fromISO(date, { zone: 'utc' }).plus({ days }).toISODate() ?? date,
      ),
    },
  };
}

const point = (lon: number, lat: number) => ({ type: 'Point', coordinates: [lon, lat] });
/** What the catalogues would answer; made by hand from their documentation. */
function catalogue(url: URL): unknown {
  const now = new Date().toISOString();
  const series = (site: string, code: string) => ({
    geometry: point(-86.41, 35.91),
    properties: {
      monitoring_location_id: site,
      parameter_code: code,
      computation_identifier: 'Instantaneous',
      end: now,
    },
  });
  if (url.pathname === '/v1/search')
    return {
      results: [
        {
          name: 'Ossarly',
          latitude: 35.9,
          longitude: -86.4,
          elevation: 189,
          timezone: ZONE,
          admin1: 'Invented State',
          country: 'Nowhere',
        },
      ],
    };
  if (url.pathname === '/v1/forecast' && url.searchParams.get('timezone') === 'auto')
    return { elevation: 189, timezone: ZONE };
  if (url.pathname.includes('/time-series-metadata/') && url.searchParams.has('bbox'))
    return {
      features: [
        series('USGS-00000101', '00062'),
        series('USGS-00000102', '00060'),
        series('USGS-00000101', '00010'),
      ],
    };
  if (url.pathname.includes('/monitoring-locations/'))
    return {
      features: ['USGS-00000101', 'USGS-00000102'].map((id) => ({
        id,
        geometry: point(-86.41, 35.91),
        properties: { monitoring_location_name: `Invented gauge ${id.slice(-3)}` },
      })),
    };
  if (url.pathname.includes('/latest-continuous/'))
    return {
      features: (
        [
          ['USGS-00000101', '00062', '616.4', 'ft'],
          ['USGS-00000102', '00060', '820', 'ft^3/s'],
          ['USGS-00000101', '00010', '9.1', 'degC'],
        ] as const
      ).map(([site, code, value, unit]) => ({
        properties: {
          monitoring_location_id: site,
          parameter_code: code,
          time: now,
          value,
          unit_of_measure: unit,
        },
      })),
    };
  if (url.pathname.startsWith('/nwps/')) return { gauges: [] };
  if (url.pathname.startsWith('/cwms-data/catalog/')) return { entries: [] };
  return undefined;
}

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'thawline-newcomer-'));
  behind = await startDemoServer(movedToNow());
  services = createServer((request, response) => {
    const url = new URL(request.url ?? '/', 'http://127.0.0.1');
    const answer = catalogue(url);
    const send = async (): Promise<void> => {
      const other = answer === undefined ? await fetch(behind.url + (request.url ?? '/')) : null;
      response.writeHead(other?.status ?? 200, { 'content-type': 'application/json' });
      response.end(other === null ? JSON.stringify(answer) : await other.text());
    };
    send().catch(() => response.destroy());
  });
  await new Promise<void>((ready) => services.listen(0, '127.0.0.1', () => ready()));
  mails = [];
  smtp = new SMTPServer({
    authOptional: true,
    disabledCommands: ['STARTTLS'],
    onData(stream, _session, done) {
      simpleParser(stream).then(
        (mail) => {
          mails.push(mail);
          done();
        },
        (error: unknown) => done(error instanceof Error ? error : new Error('no mail')),
      );
    },
  });
  await new Promise<void>((ready) => smtp.listen(0, '127.0.0.1', () => ready()));
});

afterAll(async () => {
  if (child?.exitCode === null) {
    child.kill('SIGKILL');
    await once(child, 'close');
  }
  await behind.close();
  services.closeAllConnections();
  await new Promise<void>((closed) => services.close(() => closed()));
  await new Promise<void>((closed) => smtp.close(() => closed()));
  rmSync(folder, { recursive: true, force: true });
});

async function freePort(): Promise<number> {
  const probe = createServer();
  await new Promise<void>((ready) => probe.listen(0, '127.0.0.1', () => ready()));
  const { port } = probe.address() as AddressInfo;
  await new Promise<void>((closed) => probe.close(() => closed()));
  return port;
}

/** The program as it is published, unpacked: built before all tests; its dependencies are those installed here. */
function unpacked(): string {
  const [{ filename }] = JSON.parse(
    execFileSync('npm', ['pack', '--json', '--ignore-scripts', '--pack-destination', folder], {
      encoding: 'utf8',
      stdio: ['ignore', 'pipe', 'ignore'],
    }),
  ) as [{ filename: string }];
  execFileSync('tar', ['xzf', join(folder, filename), '-C', folder]);
  const at = join(folder, 'package');
  symlinkSync(resolve('node_modules'), join(at, 'node_modules'));
  return join(at, 'dist/cli/main.js');
}

it('goes from the packed program to the first mail and out again', { timeout: 600_000 }, async () => {
  const main = unpacked();
  const home = join(folder, 'home');
  mkdirSync(home);
  const { port: smtpPort } = smtp.server.address() as AddressInfo;
  const env = {
    PATH: process.env['PATH'],
    HOME: home,
    THAWLINE_LOG: 'error',
    THAWLINE_SMTP_URL: `smtp://127.0.0.1:${smtpPort}`,
  };
  /** Beside this process, which serves what it asks for. */
  const run = async (
    ...words: string[]
  ): Promise<{ status: number | null; stdout: string; stderr: string }> => {
    const one = spawn(process.execPath, [main, ...words], {
      cwd: home,
      env,
      stdio: ['ignore', 'pipe', 'pipe'],
    });
    let [stdout, stderr] = ['', ''];
    one.stdout.on('data', (chunk: Buffer) => (stdout += chunk.toString()));
    one.stderr.on('data', (chunk: Buffer) => (stderr += chunk.toString()));
    const [status] = (await once(one, 'close')) as [number | null];
    return { status, stdout, stderr };
  };
  const thawline = async (...words: string[]): Promise<string> => {
    const { status, stdout, stderr } = await run(...words);
    const told = { status, stderr, stdout: status === 0 ? '' : stdout };
    expect(told, words[0]).toEqual({ status: 0, stderr: '', stdout: '' });
    return stdout;
  };
  const base = `http://127.0.0.1:${(services.address() as AddressInfo).port}`;
  const port = await freePort();
  const mirrors = [
    'open-meteo-geocoding',
    'open-meteo',
    'open-meteo-archive',
    'usgs',
    'nws',
    'nwps',
    'cwms',
  ].flatMap((name) => ['--service', `${name}=${base}`]);
  const init = [
    'init',
    '--yes',
    '--name',
    'Ossarly Lake',
    '--place',
    'Ossarly',
    '--mean-depth',
    '42 ft',
    '--area',
    '6200 acres',
    '--reader',
    ADDRESS,
    '--smtp',
    '--base-url',
    `http://127.0.0.1:${port}`,
    '--listen',
    `127.0.0.1:${port}`,
    '--issue-at',
    DateTime.now().setZone(ZONE).toFormat('HH:mm'),
    ...mirrors,
  ];
  expect(await thawline(...init)).toMatch(/3 gauges, zone America\/Chicago, alerts not found/);
  const written = readFileSync(join(home, 'config/thawline.yaml'), 'utf8');
  expect(written).toMatch(/station: USGS-00000101, variable: level, parameter: "00062"/);
  // Twice is once: what stands there is kept.
  expect(await run(...init)).toMatchObject({
    status: 2,
    stderr: expect.stringMatching(/exists already and is kept/) as string,
  });
  expect(readFileSync(join(home, 'config/thawline.yaml'), 'utf8')).toBe(written);

  const proof = await thawline('check');
  expect(proof).toMatch(/All as expected/);
  expect(proof).toMatch(/well +level usgs USGS-00000101\/00062: [\d.]+ m, \d+ \w+ old/);
  expect(proof).toMatch(/leads to the pages of thawline run/);

  let stderr = '';
  child = spawn(process.execPath, [main, 'run'], { cwd: home, env, stdio: ['ignore', 'ignore', 'pipe'] });
  child.stderr?.on('data', (chunk: Buffer) => (stderr += chunk.toString()));
  for (const untilMs = Date.now() + 240_000; mails.length === 0 && Date.now() < untilMs;) await sleep(100);
  const [mail] = mails;
  expect(stderr).toBe('');
  expect(mail?.subject).toMatch(/^Ossarly Lake/);
  expect(mail?.text).toMatch(/THE DAY/);

  const header = mail?.headers.get('list') as { unsubscribe?: { url?: string } } | undefined;
  const url = header?.unsubscribe?.url ?? '';
  expect(url).toMatch(new RegExp(`^http://127\\.0\\.0\\.1:${port}/leave/now\\?t=`));
  const gone = await fetch(url, {
    method: 'POST',
    body: new URLSearchParams({ 'List-Unsubscribe': 'One-Click' }),
  });
  expect(gone.status).toBe(200);
  for (const form of ['txt', 'json', 'atom', 'ics', 'png'])
    expect((await fetch(`http://127.0.0.1:${port}/lakes/ossarly-lake/latest.${form}`)).status, form).toBe(
      200,
    );
  child.kill('SIGTERM');
  expect(await once(child, 'exit')).toEqual([0, null]);
  expect(JSON.parse(await thawline('readers', 'list', '--json'))).toMatchObject({
    address: ADDRESS,
    state: 'left',
  });
  expect(stderr).toBe('');
});
