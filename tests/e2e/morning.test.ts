/**
 * The main job from outside: the real command line in a child process, real HTTP to a loopback server that answers as
 * the services do, a real SQLite file, a real SMTP server; then the mail is read back. What is about services and clocks,
 * not about the process, runs the same commands in this one: each start costs two seconds of processor time.
 */
import { PROGRAM } from '../builtProgram.ts';
import { spawn } from 'node:child_process';
import { mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { simpleParser, type ParsedMail } from 'mailparser';
import { SMTPServer } from 'smtp-server';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it, vi } from 'vitest';
import { twinSchema } from '../../src/words/index.ts';
import { addBriefCommand } from '../../src/cli/brief.ts';
import { WEATHER_UNITS, type DemoData } from '../../src/cli/demoServer.ts';
import { addSendCommand } from '../../src/cli/send.ts';
import { commandLine } from '../helpers/commandLine.ts';
import {
  startReplayServer,
  type Fault,
  type ReplayServer,
  type ReplayService,
  type UsgsReplayRow,
} from '../helpers/replayServer.ts';

const data = JSON.parse(readFileSync('fixtures/demo/ossarly.json', 'utf8')) as DemoData;
const AS_OF = data.asOf;
const UNITS = { time: 'unixtime', ...WEATHER_UNITS };
const weather = (): unknown => ({
  latitude: 35.9,
  longitude: -86.4,
  utc_offset_seconds: 0,
  timezone: 'GMT',
  hourly_units: UNITS,
  hourly: data.hourly,
});
const gaugeRows: UsgsReplayRow[] = data.gauges.time.flatMap((time, index) => [
  {
    site: 'USGS-00000101',
    parameter: '00062',
    series: 'level',
    atMs: time * 1000,
    value: String(data.gauges.levelFt[index]),
    unit: 'ft',
  },
  {
    site: 'USGS-00000102',
    parameter: '00060',
    series: 'flow',
    atMs: time * 1000,
    value: String(data.gauges.dischargeFt3s[index]),
    unit: 'ft^3/s',
  },
  {
    site: 'USGS-00000101',
    parameter: '00010',
    series: 'water',
    atMs: time * 1000,
    value: String(data.gauges.waterC[index]),
    unit: 'degC',
  },
]);

let server: ReplayServer;
let smtp: SMTPServer;
let mails: ParsedMail[] = [];
let folder: string;

beforeAll(async () => {
  server = await startReplayServer({
    openMeteo: weather,
    openMeteoArchive: weather,
    usgs: gaugeRows,
    usgsDaily: data.dailyLevels.date.map((date, index) => ({
      site: 'USGS-00000101',
      parameter: '00062',
      series: 'level-daily',
      statistic: '00003',
      date,
      value: String(data.dailyLevels.levelFt[index]),
      unit: 'ft',
    })),
    slowMs: 20_000,
  });
  smtp = new SMTPServer({
    authOptional: true,
    disabledCommands: ['STARTTLS'],
    onData(stream, _session, done) {
      simpleParser(stream, { keepCidLinks: true }).then(
        (mail) => {
          mails.push(mail);
          done();
        },
        (error: unknown) => done(error as Error),
      );
    },
  });
  await new Promise<void>((resolve) => smtp.listen(0, '127.0.0.1', resolve));
});

afterAll(async () => {
  await server.close();
  await new Promise<void>((resolve) => smtp.close(resolve));
});

beforeEach(() => {
  mails = [];
  folder = mkdtempSync(join(tmpdir(), 'thawline-e2e-'));
  const example = readFileSync('config/thawline.example.yaml', 'utf8');
  writeFileSync(
    join(folder, 'thawline.yaml'),
    example
      .replace('record: data/thawline.sqlite', `record: ${join(folder, 'record.sqlite')}`)
      .replace('transport: directory', 'transport: smtp')
      .replace(
        'address: reader@example.org, lakes: [ossarly], units: us',
        'address: ann@example.org, lakes: [ossarly], units: us',
      )
      .replace(
        'services:\n',
        `services:\n  timeoutMs: 1500\n  baseUrls: { usgs: "${server.baseUrls.usgs}", open-meteo: "${server.baseUrls['open-meteo']}", open-meteo-archive: "${server.baseUrls['open-meteo-archive']}" }\n`,
      ),
  );
});

afterEach(() => {
  for (const service of ['open-meteo', 'open-meteo-archive', 'usgs'] as const) server.setFault(service, null);
  rmSync(folder, { recursive: true, force: true });
});

interface Run {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

const environment = (): Readonly<Record<string, string>> => ({
  THAWLINE_SMTP_URL: `smtp://127.0.0.1:${(smtp.server.address() as AddressInfo).port}`,
  THAWLINE_SECRET: 'a secret of at least thirty-two characters',
  NODE_ENV: 'production',
});

/** The same command in this process. */
async function inHere(...args: string[]): Promise<Run> {
  for (const [name, value] of Object.entries(environment())) vi.stubEnv(name, value);
  try {
    const add = args[0] === 'send' ? addSendCommand : addBriefCommand;
    return await commandLine(add, '--config', join(folder, 'thawline.yaml'), ...args);
  } finally {
    vi.unstubAllEnvs();
  }
}

function thawline(...args: string[]): Promise<Run> {
  const child = spawn(process.execPath, [...PROGRAM, '--config', join(folder, 'thawline.yaml'), ...args], {
    env: { ...process.env, ...environment() },
  });
  let out = '';
  let err = '';
  child.stdout.on('data', (chunk: Buffer) => (out += chunk.toString()));
  child.stderr.on('data', (chunk: Buffer) => (err += chunk.toString()));
  return new Promise((resolve) => child.on('close', (code) => resolve({ code, out, err })));
}

const send = (): Promise<Run> => thawline('send', 'ossarly', '--as-of', AS_OF);

describe('a morning', () => {
  it('goes from the services to the reader’s mailbox', async () => {
    const run = await send();
    expect(run, run.err).toMatchObject({ code: 0 });
    expect(mails).toHaveLength(1);
    const mail = mails[0]!;
    expect(mail.subject).toContain('Ossarly Lake');
    expect(mail.headers.get('auto-submitted')).toBe('auto-generated');
    expect(mail.headerLines.map((line) => line.key)).toContain('list-id');
    expect(mail.text).toContain('THE DAY');
    expect(mail.html).toContain('<html');
    expect(mail.attachments.filter((part) => part.contentType === 'image/png').length).toBeGreaterThanOrEqual(
      1,
    );
    for (const picture of mail.attachments) expect(mail.html).toContain(`cid:${picture.cid ?? ''}`);
    expect(Buffer.byteLength(String(mail.html))).toBeLessThan(80_000);
    // The mail names no host of a service it was not told to credit, no secret, and its zone.
    expect(mail.text).toContain('CST');
    expect(mail.text).toContain('Open-Meteo');
    expect(run.out + run.err).not.toContain('ann@example.org');
  }, 60_000);

  it('prints numbers that a hand can check against what the services sent', async () => {
    const run = await inHere('brief', 'ossarly', '--as-of', AS_OF, '--format', 'json');
    expect(run, run.err).toMatchObject({ code: 0 });
    const document = twinSchema.parse(JSON.parse(run.out)).page;
    const row = (id: string) =>
      document.conditions.find((condition) => condition.id === id)?.now?.value ?? NaN;
    const asOf = Date.parse(AS_OF) / 1000;
    // Rain of the 24 hours that end at or before the instant: a plain sum of the hours sent.
    const rain = (hours: number) =>
      data.hourly['time']!.reduce(
        (sum, time, index) =>
          time <= asOf && time > asOf - hours * 3600 ? sum + data.hourly['precipitation']![index]! : sum,
        0,
      );
    expect(row('rain24Mm')).toBeCloseTo(rain(24), 6);
    expect(row('rain72Mm')).toBeCloseTo(rain(72), 6);
    // Level: last value in feet against the one of a day before, 1 ft = 0.3048 m.
    const levels = data.gauges.levelFt;
    const change = (levels.at(-1)! - levels.at(-25)!) * 0.3048;
    expect(Math.abs(row('level24hM') - change)).toBeLessThan(0.03);
    // Normal pool of the example configuration is 616.5 ft; the year's range is that of the daily values sent.
    const now = levels.at(-1)!;
    const [low, high] = [Math.min(...data.dailyLevels.levelFt), Math.max(...data.dailyLevels.levelFt)];
    expect((now - low) / (high - low)).toBeLessThan(1 / 3);
    const note = document.conditions.find(({ id }) => id === 'levelM')?.note ?? '';
    expect(note).toContain('below normal pool; in the lower third of the range of the past year');
    const printed =
      /^([\d.]+) ft below.*, ([\d.]+) ft to ([\d.]+) ft\.$/.exec(note)?.slice(1).map(Number) ?? [];
    expect(printed).toHaveLength(3);
    for (const [i, expected] of [616.5 - now, low, high].entries())
      expect(Math.abs(printed[i]! - expected)).toBeLessThan(0.12);
    expect(row('dischargeM3s')).toBeCloseTo(data.gauges.dischargeFt3s.at(-1)! * 0.028316846592, 4);
    expect(document.lake.zone).toBe('America/Chicago');
  }, 60_000);

  it('sends once, however often it is started', async () => {
    const first = await inHere('send', 'ossarly', '--as-of', AS_OF);
    expect(first, first.err).toMatchObject({ code: 0 });
    const again = await send();
    expect(again, again.err).toMatchObject({ code: 0 });
    expect(mails).toHaveLength(1);
  }, 60_000);

  it('from the record alone gives the same briefing', async () => {
    const online = await inHere('brief', 'ossarly', '--as-of', AS_OF, '--format', 'text');
    const offline = await thawline('brief', 'ossarly', '--as-of', AS_OF, '--offline', '--format', 'text');
    expect(offline.code).toBe(0);
    expect(offline.out).toBe(online.out);
  }, 60_000);
});

describe('when a service fails the mail goes out and says what is missing', () => {
  it.each<[ReplayService, Fault]>([
    ['usgs', 'down'],
    ['usgs', '500'],
    ['usgs', '429'],
    ['usgs', 'html'],
    ['usgs', 'empty'],
    ['usgs', 'slow'],
    ['usgs', 'stale'],
    ['open-meteo', 'down'],
    ['open-meteo', '500'],
    ['open-meteo', 'html'],
    ['open-meteo', '429'],
  ])(
    '%s: %s',
    async (service, fault) => {
      server.setFault(service, fault);
      const run = await inHere('send', 'ossarly', '--as-of', AS_OF);
      expect(run, run.err).toMatchObject({ code: 0 });
      expect(mails).toHaveLength(1);
      const text = mails[0]!.text ?? '';
      expect(text).not.toMatch(/undefined|NaN|null/);
      if (service === 'usgs') {
        expect(text).toMatch(/level gauge has sent nothing|level/i);
        expect(text).not.toMatch(/Level change, 24 h\s+[+-]?\d/);
      }
    },
    90_000,
  );
});

describe('on the days the clocks change', () => {
  it.each([
    ['forward', 2, '2026-03-08T10:15:00Z', '2026-03-08', 'CDT', 23],
    ['back', 240, '2026-11-01T11:15:00Z', '2026-11-01', 'CST', 25],
  ])(
    '%s: the mail is of the right date and the day has its own length',
    async (_, days, asOf, date, zone, hours) => {
      const shiftS = days * 86_400;
      const hourly = { ...data.hourly, time: data.hourly['time']!.map((time) => time + shiftS) };
      const moved = (): unknown => ({ ...(weather() as object), hourly });
      const other = await startReplayServer({
        openMeteo: moved,
        openMeteoArchive: moved,
        usgs: gaugeRows.map((row) => ({ ...row, atMs: row.atMs + shiftS * 1000 })),
      });
      try {
        const path = join(folder, 'thawline.yaml');
        writeFileSync(path, readFileSync(path, 'utf8').replaceAll(server.url, other.url));
        const run = await inHere('brief', 'ossarly', '--as-of', asOf, '--format', 'json');
        expect(run, run.err).toMatchObject({ code: 0 });
        const document = twinSchema.parse(JSON.parse(run.out)).page;
        expect(document.date).toBe(date);
        expect(document.series.hours).toHaveLength(hours);
        const sent = await inHere('send', 'ossarly', '--as-of', asOf);
        expect(sent, sent.err).toMatchObject({ code: 0 });
        expect(mails).toHaveLength(1);
        expect(mails[0]!.text).toContain(`5:15 am ${zone}`);
      } finally {
        await other.close();
      }
    },
    90_000,
  );
});

describe('bad input', () => {
  it('an unknown lake: the known ones are named, nothing is written', async () => {
    const run = await inHere('brief', 'nowhere', '--out', join(folder, 'out'));
    expect(run.code).toBe(2);
    expect(run.err).toContain('Known lakes: ossarly');
    expect(readdirSync(folder)).not.toContain('out');
  }, 30_000);

  it('an instant without its zone', async () => {
    const run = await inHere('brief', 'ossarly', '--as-of', '2026-03-06T05:15');
    expect(run.code).toBe(2);
    expect(run.err).toContain('expected an instant with its zone');
  }, 30_000);

  it('a configuration with a wrong unit: file, line, column', async () => {
    const path = join(folder, 'thawline.yaml');
    writeFileSync(path, readFileSync(path, 'utf8').replace('meanDepth: 42 ft #', 'meanDepth: 42 psi #'));
    const run = await thawline('brief', 'ossarly');
    expect(run.code).toBe(3);
    expect(run.err).toMatch(/thawline\.yaml:\d+:\d+: lakes\.0\.meanDepth/);
  }, 30_000);
});
