/** The pages beside the schedule, over real sockets: a place that is taken is taken over when it is free. */
import { createServer, type Server } from 'node:http';
import { once } from 'node:events';
import type { AddressInfo } from 'node:net';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { faultsOf, webPlace } from '../../src/cli/pages.ts';
import { PagesBeside } from '../../src/cli/pagesBeside.ts';
import { site, type Site } from '../web/kit.ts';

let web: Site;
let other: Server;
let port: number;
let lines: string[];
let pages: PagesBeside;
beforeEach(async () => {
  web = await site();
  other = createServer((_, reply) => reply.end('another process'));
  other.listen(0, '127.0.0.1');
  await once(other, 'listening');
  ({ port } = other.address() as AddressInfo);
  lines = [];
  const log = {
    info: (_: unknown, text: string) => void lines.push(text),
    error: (_: unknown, text: string) => void lines.push(text),
  };
  pages = new PagesBeside(log, 5);
});
afterEach(async () => {
  await pages.close();
  other.closeAllConnections();
  other.close();
  await web.record.close();
});

const shown = async (): Promise<string> => (await fetch(`http://127.0.0.1:${port}/style.css`)).text();
const free = async (): Promise<void> => {
  other.closeAllConnections();
  other.close();
  await once(other, 'close');
};

it('serves as soon as the process that had the place is gone, and tells of both once', async () => {
  // Each trial would tell of the short secret again if it made the pages anew.
  const deps = { ...web.deps, env: { THAWLINE_BOUNCES_SECRET: 'short' } };
  await pages.serve(deps, { host: '127.0.0.1', port });
  expect(await shown()).toBe('another process');
  await new Promise((resolve) => setTimeout(resolve, 50));
  expect(lines).toEqual([expect.stringContaining('not served here')]);
  expect(web.faults).toEqual([]);
  await free();
  await vi.waitFor(async () => expect(await shown()).toContain('font'), { timeout: 20_000 });
  expect(lines).toEqual([expect.stringContaining('not served here'), 'pages are served']);
});

it('stops trying when it rests, and takes up a new configuration where it serves', async () => {
  await pages.serve(web.deps, { host: '127.0.0.1', port });
  await pages.rest();
  await free();
  await new Promise((resolve) => setTimeout(resolve, 50));
  await expect(shown()).rejects.toThrow();
  await pages.serve(web.deps, { host: '127.0.0.1', port });
  expect(await shown()).toContain('font');
  await pages.rest();
  expect((await fetch(`http://127.0.0.1:${port}/`)).status).toBe(503);
  await pages.serve(web.deps, { host: '127.0.0.1', port });
  expect((await fetch(`http://127.0.0.1:${port}/`)).status).toBe(200);
  await pages.serve(web.deps, null);
  await expect(shown()).rejects.toThrow();
});

it('counts the faults of each page by itself', () => {
  const told: unknown[] = [];
  const onFault = faultsOf(({ page, times }) => told.push([page, times]));
  for (const page of ['GET /a', 'GET /b', 'GET /a']) onFault(new Error('x'), page);
  expect(told).toEqual([
    ['GET /a', 1],
    ['GET /b', 1],
    ['GET /a', 2],
  ]);
});

it('thawline web serves where the configuration says that the pages are, and options come first', () => {
  const web = { baseUrl: 'http://127.0.0.1:9720', port: 8080, secretEnv: 'X' };
  expect(webPlace({ ...web, listen: '127.0.0.1:9720' }, {})).toEqual({ host: '127.0.0.1', port: 9720 });
  expect(webPlace({ ...web, listen: '[::1]:9720' }, { port: 1 })).toEqual({ host: '::1', port: 1 });
  expect(webPlace({ ...web, listen: 'none' }, {})).toEqual({ host: '127.0.0.1', port: 8080 });
  expect(webPlace({ ...web, listen: '0.0.0.0' }, { host: '127.0.0.1' })).toEqual({
    host: '127.0.0.1',
    port: 8080,
  });
});
