import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { serve } from '@hono/node-server';
import { openRecord } from '../src/record/index.ts';
import { loadConfig } from '../src/config/index.ts';
import { loadRules } from '../src/config/rules.ts';
import { createWebApp } from '../src/web/index.ts';
import { holdWriteLock } from '../tests/helpers/lockHolder.ts';
import type { AddressInfo } from 'node:net';

/**
 * How long a static page takes while another process holds the record's write lock for five seconds and a visitor's
 * form waits for it, against the same page without; and beside it a page that reads the record.
 *
 * `npx tsx bench/locked-page.ts`
 */
const ASKED = 200;
const HOLD_S = 5;

const folder = mkdtempSync(join(tmpdir(), 'locked-page-'));
const path = join(folder, 'record.sqlite');
const record = await openRecord(path);
const config = await loadConfig('config/thawline.example.yaml');
const app = createWebApp({
  config: { ...config, recordPath: path, web: { ...config.web, baseUrl: 'http://127.0.0.1' } },
  record,
  rules: loadRules(),
  secret: 'a secret of at least thirty-two characters',
  now: () => Date.now(),
  onFault: () => undefined,
});
const server = serve({ fetch: app.fetch, port: 0, hostname: '127.0.0.1' });
await new Promise<void>((ready) => server.once('listening', ready));
const base = `http://127.0.0.1:${(server.address() as AddressInfo).port}`;

async function timesOf(page: string): Promise<number[]> {
  const times: number[] = [];
  for (let i = 0; i < ASKED; i += 1) {
    const before = performance.now();
    await (await fetch(`${base}${page}`)).arrayBuffer();
    times.push(performance.now() - before);
  }
  return times.sort((a, b) => a - b);
}
const at = (times: readonly number[], share: number): number =>
  times[Math.floor(share * (times.length - 1))] ?? NaN;

const PAGES = ['/style.css', '/subscribe'];
for (const page of PAGES) await timesOf(page);
const free = new Map<string, number[]>();
for (const page of PAGES) free.set(page, await timesOf(page));
const lock = await holdWriteLock(path, [[0, HOLD_S * 1000]]);
const waiting = record.putReading({
  id: 'r',
  lake: 'x',
  atMs: 0,
  waterC: 9,
  depthM: 1,
  sdC: 0.3,
  where: 'ramp',
});
const held = new Map<string, number[]>();
for (const page of PAGES) held.set(page, await timesOf(page));
await waiting;
await lock.done;
console.log('page            usual, ms (median, 99 %)   write lock held elsewhere   times as long');
for (const page of PAGES) {
  const [a, b] = [free.get(page) ?? [], held.get(page) ?? []];
  console.log(
    `${page.padEnd(14)}  ${at(a, 0.5).toFixed(2)}, ${at(a, 0.99).toFixed(2)}`.padEnd(43) +
      `${at(b, 0.5).toFixed(2)}, ${at(b, 0.99).toFixed(2)}`.padEnd(28) +
      `${(at(b, 0.5) / at(a, 0.5)).toFixed(2)}, ${(at(b, 0.99) / at(a, 0.99)).toFixed(2)}`,
  );
}
server.close();
await record.close();
rmSync(folder, { recursive: true, force: true });
