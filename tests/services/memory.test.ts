/** What is known of a host outlives the client that learned it: budgets and rests hold over restarts and processes. */
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { HttpClient, HostMemories, HostMemory } from '../../src/services/index.ts';
import { testClient } from './support.ts';

let server: Server;
let url: string;
let asked = 0;
let status = 200;
/** Connections are taken and broken off without a word. */
let isDead = false;
const clients: HttpClient[] = [];
const kept = new Map<string, HostMemory>();
const memories: HostMemories = {
  get: (host) => Promise.resolve(kept.get(host) ?? null),
  set: (host, memory) => {
    kept.set(host, JSON.parse(JSON.stringify(memory)) as HostMemory);
    return Promise.resolve();
  },
};
let nowMs = Date.UTC(2026, 2, 6, 11);

beforeEach(async () => {
  asked = 0;
  status = 200;
  isDead = false;
  kept.clear();
  nowMs = Date.UTC(2026, 2, 6, 11);
  server = createServer((request, response) => {
    asked += 1;
    if (isDead) request.socket.destroy();
    else response.writeHead(status, status === 429 ? { 'retry-after': '600' } : {}).end('{}');
  });
  await new Promise<void>((ready) => server.listen(0, '127.0.0.1', ready));
  url = `http://127.0.0.1:${(server.address() as AddressInfo).port}/data`;
});
afterEach(async () => {
  for (const client of clients.splice(0)) await client.close();
  server.closeAllConnections();
  await new Promise((done) => server.close(done));
});

/** As another process would make it. */
function fresh(max = 5): HttpClient {
  const host = new URL(url).host;
  const client = testClient({
    memories,
    nowMs: () => nowMs,
    attempts: 1,
    maxWaitMs: 0,
    budgets: { [host]: [{ windowMs: 3_600_000, max }] },
  });
  clients.push(client);
  return client;
}
const ask = async (client: HttpClient): Promise<string> =>
  client.get({ url, service: 'The service' }).then(
    () => 'answered',
    (error: unknown) => (error instanceof Error ? error.message : ''),
  );

describe('the budget of a host', () => {
  it('is not new after a restart, and is again when its window is over', async () => {
    const first = fresh();
    for (let n = 0; n < 5; n += 1) expect(await ask(first)).toBe('answered');
    await first.confirm();
    expect(await ask(fresh())).toMatch(/budget .* is used up/);
    nowMs += 3_600_000 + 60_000;
    expect(await ask(fresh())).toBe('answered');
    expect(asked).toBe(6);
  });

  it('is shared by two that ask in turns, and no request is counted twice', async () => {
    const [one, two] = [fresh(6), fresh(6)];
    for (let n = 0; n < 3; n += 1) {
      for (const client of [one, two]) {
        expect(await ask(client)).toBe('answered');
        await client.confirm();
        nowMs += 1000;
      }
    }
    for (const client of [one, two]) expect(await ask(client)).toMatch(/used up/);
  });
});

describe('a host that asked us to wait', () => {
  it('is left alone by the next process too, as long as it asked and no longer', async () => {
    status = 429;
    const first = fresh();
    await ask(first);
    await first.confirm();
    status = 200;
    expect(await ask(fresh())).toMatch(/left alone for now/);
    nowMs += 601_000;
    expect(await ask(fresh())).toBe('answered');
  });

  it('is not left alone for a year because a clock once ran ahead', async () => {
    kept.set(new URL(url).host, {
      restUntilMs: nowMs + 400 * 86_400_000,
      failures: { inARow: 9, heardMs: nowMs + 86_400_000 },
      sent: [[nowMs + 86_400_000, 5]],
    });
    expect(await ask(fresh())).toBe('answered');
  });
});

describe('a host that gives no reply', () => {
  /** One refresh of a process that begins anew each time, as one that is started again and again. */
  const refresh = async (): Promise<string> => {
    const client = fresh(50);
    const said = await ask(client);
    await client.confirm();
    return said;
  };

  it('is left alone after three in a row, whichever process they were of, and asked again after a minute', async () => {
    isDead = true;
    for (let n = 0; n < 3; n += 1) {
      expect(await refresh()).toMatch(/could not be reached/);
      nowMs += 1000;
    }
    expect(await refresh()).toMatch(/left alone for now/);
    nowMs += 60_000;
    expect(await refresh()).toMatch(/could not be reached/);
  });

  it('is known as such by the next process even where this one ends before it has stored anything', async () => {
    isDead = true;
    const first = fresh();
    for (let n = 0; n < 3; n += 1) await ask(first);
    expect(await ask(fresh())).toMatch(/left alone for now/);
  });

  it('is no longer counted against once one reply came, or ten minutes passed', async () => {
    for (const heal of [() => refresh(), () => Promise.resolve((nowMs += 10 * 60_000 + 1))]) {
      isDead = true;
      for (let n = 0; n < 2; n += 1) expect(await refresh()).toMatch(/could not be reached/);
      isDead = false;
      await heal();
      isDead = true;
      for (let n = 0; n < 2; n += 1) expect(await refresh()).toMatch(/could not be reached/);
      nowMs += 3_600_000;
    }
  });
});
