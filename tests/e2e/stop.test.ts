/** Being told to stop while mail is going out: the real scheduler in a child process, a slow SMTP server on loopback. */
import { PROGRAM } from '../builtProgram.ts';
import { spawn, type ChildProcess } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { DateTime } from 'luxon';
import { SMTPServer } from 'smtp-server';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';

const READERS = Array.from({ length: 24 }, (_, i) => `reader${i}@example.org`);
/** How long the server thinks about each message. */
const SLOW_MS = 250;
const ZONE = 'America/Chicago';

let smtp: SMTPServer;
let received: string[];
let folder: string;

beforeEach(async () => {
  received = [];
  folder = mkdtempSync(join(tmpdir(), 'thawline-stop-'));
  smtp = new SMTPServer({
    authOptional: true,
    disabledCommands: ['STARTTLS'],
    onData(stream, session, done) {
      stream.resume();
      stream.on('end', () => {
        setTimeout(() => {
          received.push(...session.envelope.rcptTo.map(({ address }) => address));
          done();
        }, SLOW_MS);
      });
    },
  });
  await new Promise<void>((resolve) => smtp.listen(0, '127.0.0.1', resolve));
  const closedPort = 'http://127.0.0.1:9';
  writeFileSync(
    join(folder, 'thawline.yaml'),
    [
      `record: ${join(folder, 'record.sqlite')}`,
      'lakes:',
      '  - id: ossarly',
      '    name: Ossarly Lake',
      '    demo: true',
      '    position: { lat: 35.9, lon: -86.4 }',
      `    zone: ${ZONE}`,
      '    waterBody: highland-reservoir',
      '    meanDepth: 42 ft',
      '    area: 6200 acres',
      `    issueAt: '${DateTime.now().setZone(ZONE).toFormat('HH:mm')}'`,
      '    graceMinutes: 30',
      'readers:',
      ...READERS.map((address) => `  - { address: ${address}, lakes: [ossarly] }`),
      'mail:',
      '  from: River desk <desk@example.org>',
      '  transport: smtp',
      '  smtpUrlEnv: THAWLINE_SMTP_URL',
      '  ratePerSecond: 100',
      '  connections: 2',
      '  listId: ossarly.example.org',
      'web: { baseUrl: "https://example.org", secretEnv: THAWLINE_SECRET }',
      'services:',
      '  contact: desk@example.org',
      '  timeoutMs: 500',
      `  baseUrls: { open-meteo: "${closedPort}", open-meteo-archive: "${closedPort}" }`,
      '',
    ].join('\n'),
  );
});

afterEach(async () => {
  await new Promise<void>((resolve) => smtp.close(resolve));
  rmSync(folder, { recursive: true, force: true });
});

interface Running {
  readonly child: ChildProcess;
  readonly ended: Promise<{ code: number | null; signal: NodeJS.Signals | null; err: string }>;
}

function thawline(...args: string[]): Running {
  const child = spawn(process.execPath, [...PROGRAM, '--config', join(folder, 'thawline.yaml'), ...args], {
    env: {
      ...process.env,
      THAWLINE_SMTP_URL: `smtp://127.0.0.1:${(smtp.server.address() as AddressInfo).port}`,
      THAWLINE_SECRET: 'a secret of at least thirty-two characters',
      NODE_ENV: 'production',
    },
  });
  let err = '';
  child.stdout.resume();
  child.stderr.on('data', (chunk: Buffer) => (err += chunk.toString()));
  return {
    child,
    ended: new Promise((resolve) => child.on('close', (code, signal) => resolve({ code, signal, err }))),
  };
}

async function until(met: () => boolean, withinMs: number): Promise<boolean> {
  const end = Date.now() + withinMs;
  while (!met() && Date.now() < end) await new Promise((resolve) => setTimeout(resolve, 20));
  return met();
}

describe('the scheduler, told to stop in the middle of a mailing', () => {
  it.each(['SIGTERM', 'SIGINT'] as const)(
    '%s: finishes what is on the line, ends with 0, and the next start sends the rest once',
    async (signal) => {
      const running = thawline('run');
      const early = await Promise.race([running.ended, until(() => received.length >= 3, 60_000)]);
      expect(early, typeof early === 'object' ? early.err : 'no mail within a minute').toBe(true);
      running.child.kill(signal);
      const { code, err } = await running.ended;
      expect(code, err).toBe(0);
      expect(received.length).toBeLessThan(READERS.length);

      const next = await thawline('run', '--once').ended;
      expect(next.code, next.err).toBe(0);
      expect([...received].sort()).toEqual([...READERS].sort());
    },
    120_000,
  );
});
