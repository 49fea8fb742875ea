/** Two processes of one record, as an operator starts them: when the first dies, the second schedules and serves the pages. */
import { spawn, type ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import { createServer } from 'node:http';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, expect, it, vi } from 'vitest';
import { BASE_IDS } from '../../src/vocabulary/index.ts';
import { PROGRAM } from '../builtProgram.ts';

const WAIT = { timeout: 120_000, interval: 200 };
const folder = mkdtempSync(join(tmpdir(), 'thawline-takeover-'));
const children: ChildProcess[] = [];
afterEach(() => {
  for (const child of children) child.kill('SIGKILL');
  rmSync(folder, { recursive: true, force: true });
});

async function freePort(): Promise<number> {
  const server = createServer().listen(0, '127.0.0.1');
  await once(server, 'listening');
  const { port } = server.address() as AddressInfo;
  server.close();
  await once(server, 'close');
  return port;
}

function start(config: string): { readonly child: ChildProcess; readonly said: () => string } {
  const child = spawn(process.execPath, [...PROGRAM, '--config', config, 'run'], {
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  children.push(child);
  let text = '';
  for (const stream of [child.stdout, child.stderr])
    stream?.on('data', (chunk: Buffer) => (text += chunk.toString()));
  return { child, said: () => text };
}

it('the second takes over both, without anybody', { timeout: 360_000 }, async () => {
  const port = await freePort();
  const config = join(folder, 'thawline.yaml');
  // Nothing answers at the services' addresses.
  writeFileSync(
    config,
    `record: ${join(folder, 'r.sqlite')}
lakes:
  - { id: tarn, name: Tarn, position: { lat: 35.5, lon: -92.5 }, zone: America/Chicago, waterBody: highland-reservoir, meanDepth: 40 ft, area: 12 km2 }
mail: { transport: directory, directory: ${join(folder, 'mail')} }
web: { port: ${port}, baseUrl: 'http://127.0.0.1:${port}' }
services: { timeoutMs: 200, baseUrls: { ${BASE_IDS.map((id) => `${id}: 'http://127.0.0.1:9'`).join(', ')} } }
`,
  );
  const shown = async (): Promise<number> => (await fetch(`http://127.0.0.1:${port}/style.css`)).status;
  const first = start(config);
  await vi.waitFor(() => expect(first.said()).toMatch(/this process schedules now/), WAIT);
  await vi.waitFor(async () => expect(await shown()).toBe(200), WAIT);
  const second = start(config);
  await vi.waitFor(() => expect(second.said()).toMatch(/another process schedules/), WAIT);
  expect(second.said()).toMatch(/pages are not served here/);
  first.child.kill('SIGKILL');
  await once(first.child, 'exit');
  await vi.waitFor(async () => expect(await shown()).toBe(200), WAIT);
  await vi.waitFor(() => expect(second.said()).toMatch(/this process schedules now/), WAIT);
  expect(second.said()).toMatch(/pages are served/);
});
