/** `thawline run` as the one process: it schedules and serves the pages, and takes up a changed configuration or refuses it. */
import { PROGRAM } from '../builtProgram.ts';
import { spawn, type ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { createServer, type AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';

let folder: string;
let child: ChildProcess;
let log: string;
const CLI = PROGRAM;

const configuration = (name: string, listen: string): string =>
  [
    `record: ${join(folder, 'record.sqlite')}`,
    'lakes:',
    `  - { id: ossarly, name: ${name}, demo: true, position: { lat: 35.9, lon: -86.4 }, zone: America/Chicago, waterBody: highland-reservoir, meanDepth: 42 ft, area: 6200 acres, issueAt: "23:59" }`,
    `mail: { directory: ${join(folder, 'mail')} }`,
    `web: { listen: "${listen}" }`,
    'services: { timeoutMs: 300, baseUrls: { open-meteo: "http://127.0.0.1:9", open-meteo-archive: "http://127.0.0.1:9" } }',
    '',
  ].join('\n');

const file = (): string => join(folder, 'thawline.yaml');

function start(): void {
  log = '';
  child = spawn(process.execPath, [...CLI, '--config', file(), 'run'], { stdio: ['ignore', 'pipe', 'pipe'] });
  child.stderr?.on('data', (chunk: Buffer) => (log += chunk.toString()));
}

async function until<T>(look: () => T | undefined | Promise<T | undefined>, what: string): Promise<T> {
  const endMs = Date.now() + 60_000;
  while (Date.now() < endMs) {
    const found = await look();
    if (found !== undefined) return found;
    await sleep(50);
  }
  throw new Error(`never: ${what}. Log:\n${log}`);
}

const address = (): Promise<string> => until(() => /"pages":"([^"]+)"/.exec(log)?.[1], 'pages are served');
const reload = async (): Promise<{ status: number | null; said: string }> => {
  const asked = spawn(process.execPath, [...CLI, '--config', file(), 'reload'], {
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  let said = '';
  for (const stream of [asked.stdout, asked.stderr])
    stream.on('data', (chunk: Buffer) => (said += chunk.toString()));
  const [status] = (await once(asked, 'close')) as [number | null];
  return { status, said };
};

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'thawline-one-'));
});
afterEach(async () => {
  if (child.exitCode === null) {
    child.kill('SIGKILL');
    await once(child, 'close');
  }
  rmSync(folder, { recursive: true });
});

describe('one process', () => {
  it('serves the pages, takes up a change, refuses a broken one, and stops when told', async () => {
    writeFileSync(file(), configuration('Ossarly Lake', '127.0.0.1:0'));
    start();
    const base = await address();
    const page = async (): Promise<string> =>
      (await fetch(base, { headers: { connection: 'close' } })).text();
    expect(await page()).toContain('Ossarly Lake');
    expect((await fetch(`${base}healthz`)).headers.get('content-type')).toMatch(/json/);
    await until(() => (log.includes('this process schedules now') ? true : undefined), 'schedules');

    writeFileSync(file(), configuration('Renamed Lake', '127.0.0.1:0'));
    expect(await reload()).toEqual({ status: 0, said: 'The changed configuration is taken up.\n' });
    await until(async () => ((await page()).includes('Renamed Lake') ? true : undefined), 'the new name');

    writeFileSync(file(), configuration('Third', '127.0.0.1:0').replace('42 ft', '42'));
    expect(await reload()).toEqual({
      status: 3,
      said: expect.stringMatching(/meanDepth.*without a unit/) as string,
    });
    child.kill('SIGHUP');
    await until(() => (log.includes('the old one stays') ? true : undefined), 'refusal');
    expect(await page()).toContain('Renamed Lake');

    child.kill('SIGTERM');
    expect(await once(child, 'exit')).toEqual([0, null]);
  }, 150_000);

  it('goes on scheduling when somebody else has the port', async () => {
    const other = createServer();
    await new Promise<void>((resolve) => other.listen(0, '127.0.0.1', () => resolve()));
    const { port } = other.address() as AddressInfo;
    writeFileSync(file(), configuration('Ossarly Lake', `127.0.0.1:${port}`));
    start();
    await until(() => (log.includes('pages are not served here') ? true : undefined), 'told');
    await until(() => (log.includes('this process schedules now') ? true : undefined), 'schedules');
    child.kill('SIGTERM');
    expect(await once(child, 'exit')).toEqual([0, null]);
    await new Promise<void>((resolve) => other.close(() => resolve()));
  }, 120_000);
});
