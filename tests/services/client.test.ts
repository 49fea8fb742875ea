/** The client against a real server on loopback: time-outs, retries, pauses, caps, redirects, validators. */
import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { afterEach, describe, expect, it } from 'vitest';
import nock from 'nock';
import type { ClientOptions, HttpClient, Validator, Validators } from '../../src/services/index.ts';
import { testClient } from './support.ts';

type Handler = (request: IncomingMessage, response: ServerResponse, count: number) => void;

let server: Server | null = null;
let client: HttpClient | null = null;
const seen: IncomingMessage[] = [];
const slept: number[] = [];

afterEach(async () => {
  await client?.close();
  server?.closeAllConnections();
  await new Promise((done) => (server === null ? done(null) : server.close(done)));
  server = null;
  client = null;
  seen.length = 0;
  slept.length = 0;
});

async function serve(handler: Handler, over: Partial<ClientOptions> = {}) {
  server = createServer((request, response) => {
    seen.push(request);
    handler(request, response, seen.length);
  });
  await new Promise<void>((ready) => server?.listen(0, '127.0.0.1', ready));
  const url = `http://127.0.0.1:${(server.address() as AddressInfo).port}/data`;
  const made = testClient({
    sleep: async (ms) => {
      slept.push(ms);
      return Promise.resolve();
    },
    ...over,
  });
  client = made;
  return {
    url,
    client: made,
    get: async (headers = {}) => made.get({ url, service: 'The service', headers }),
  };
}

describe('retries', () => {
  it('tries again with growing, jittered pauses after 503, and then succeeds', async () => {
    const { get } = await serve((_, response, n) => response.writeHead(n < 3 ? 503 : 200).end('{}'));
    expect((await get()).status).toBe(200);
    expect(slept).toEqual([750, 1500]);
  });

  it('gives up after three attempts with one sentence', async () => {
    const { get } = await serve((_, response) => response.writeHead(500).end('oops'));
    await expect(get()).rejects.toMatchObject({
      code: 'service',
      message: 'The service answered 500: it has a fault of its own.',
      retryable: true,
    });
    expect(seen).toHaveLength(3);
  });

  it('does not try again where it cannot help', async () => {
    const { get } = await serve((_, response) => response.writeHead(404).end('{"detail":"no such place"}'));
    await expect(get()).rejects.toMatchObject({
      message: 'The service answered 404: it does not know this place or station ("no such place").',
      retryable: false,
    });
    expect(seen).toHaveLength(1);
  });

  it('waits as long as Retry-After asks, up to a cap', async () => {
    const short = await serve((_, response, n) =>
      response.writeHead(n === 1 ? 429 : 200, { 'retry-after': '7' }).end('{}'),
    );
    await short.get();
    expect(slept).toEqual([7000]);
  });

  it.each([['99999999999999'], ['Fri, 31 Dec 9999 23:59:59 GMT'], ['9'.repeat(400)]])(
    'takes %s for a day, and asks no second time',
    async (header) => {
      const { get } = await serve((_, response) =>
        response.writeHead(429, { 'retry-after': header }).end('{}'),
      );
      await expect(get()).rejects.toMatchObject({ retryAfterMs: 86_400_000, retryable: true });
      await expect(get()).rejects.toThrow('left alone for now');
      expect(seen).toHaveLength(1);
      expect(slept).toEqual([]);
    },
  );

  it('does not wait longer than the cap, and leaves the host alone', async () => {
    const { get } = await serve((_, response) =>
      response.writeHead(429, { 'retry-after': '1800' }).end('{}'),
    );
    await expect(get()).rejects.toMatchObject({ retryAfterMs: 1_800_000, retryable: true });
    await expect(get()).rejects.toThrow('left alone for now');
    expect(seen).toHaveLength(1);
  });

  it('stops asking when the service says that no request is left', async () => {
    const { get } = await serve((_, response) =>
      response.writeHead(200, { 'x-ratelimit-remaining': '0' }).end('{}'),
    );
    expect((await get()).status).toBe(200);
    await expect(get()).rejects.toThrow('left alone for now');
  });

  it('keeps asking a host that does answer, though badly: alerts must not suffer from a broken forecast', async () => {
    const { get } = await serve((_, response, n) => response.writeHead(n <= 12 ? 503 : 200).end('{}'));
    for (let i = 0; i < 4; i += 1) await expect(get()).rejects.toThrow('answered 503');
    expect((await get()).status).toBe(200);
  });

  it('reads Retry-After as a date too', async () => {
    const at = 'Fri, 06 Mar 2026 11:15:09 GMT';
    const { get } = await serve(
      (_, response, n) => response.writeHead(n === 1 ? 503 : 200, { 'retry-after': at }).end('{}'),
      { nowMs: () => Date.UTC(2026, 2, 6, 11, 15) },
    );
    await get();
    expect(slept).toEqual([9000]);
  });

  it('leaves a host alone after three requests in a row have failed', async () => {
    const { get } = await serve((request) => request.socket.destroy());
    for (let i = 0; i < 3; i += 1) await expect(get()).rejects.toThrow('could not be reached');
    const before = seen.length;
    await expect(get()).rejects.toThrow('left alone for now');
    expect(seen).toHaveLength(before);
  });
});

describe('limits', () => {
  it('stops waiting for headers after the time-out', async () => {
    const { get } = await serve(() => undefined, { timeoutMs: 60, attempts: 1 });
    await expect(get()).rejects.toThrow('did not answer within 0.06 s');
  });

  it('stops waiting for a body that trickles', async () => {
    const { get } = await serve((_, response) => response.writeHead(200).write('{'), {
      timeoutMs: 60,
      attempts: 1,
    });
    await expect(get()).rejects.toThrow('did not answer within 0.06 s');
  });

  it('drops a body above the cap without reading all of it', async () => {
    const junk = 'x'.repeat(10_000_000);
    const { get } = await serve((_, response) => response.writeHead(200).end(junk), { maxBytes: 1_000_000 });
    await expect(get()).rejects.toThrow('sent more than 1 MB');
  });

  it('keeps no more than the given number of requests open at once', async () => {
    let open = 0;
    let most = 0;
    const { get } = await serve(
      (_, response) => {
        open += 1;
        most = Math.max(most, open);
        setTimeout(() => {
          open -= 1;
          response.end('{}');
        }, 10);
      },
      { parallelPerHost: 3 },
    );
    await Promise.all(Array.from({ length: 12 }, async () => get()));
    expect(most).toBe(3);
    expect(seen).toHaveLength(12);
  });
});

describe('redirects', () => {
  it('follows one within the host', async () => {
    const { get } = await serve((request, response) => {
      if (request.url === '/data') response.writeHead(301, { location: '/other' }).end();
      else response.end('{"here":true}');
    });
    expect((await get()).text).toBe('{"here":true}');
  });

  it('does not follow one to another host, so that a key cannot leak', async () => {
    const { get } = await serve((_, response) =>
      response.writeHead(302, { location: 'http://127.0.0.2:1/' }).end(),
    );
    await expect(get({ 'x-api-key': 'secret' })).rejects.toThrow('another host');
    expect(seen).toHaveLength(1);
  });

  it('notices a circle', async () => {
    const { get } = await serve((_, response) => response.writeHead(302, { location: '/data' }).end());
    await expect(get()).rejects.toThrow('round in circles');
  });
});

describe('conditional requests', () => {
  const memory = (): Validators & { kept: Map<string, Validator> } => {
    const kept = new Map<string, Validator>();
    return {
      kept,
      get: async (url) => Promise.resolve(kept.get(url) ?? null),
      set: async (url, validator) => Promise.resolve(void kept.set(url, validator)),
    };
  };

  it('asks "only if changed" once the reply is confirmed, and not before', async () => {
    const validators = memory();
    const { client: http, url } = await serve(
      (request, response) => {
        const known = request.headers['if-none-match'] === '"v1"';
        response.writeHead(known ? 304 : 200, {
          etag: '"v1"',
          'last-modified': 'Thu, 05 Mar 2026 10:00:00 GMT',
        });
        response.end(known ? '' : '{}');
      },
      { validators },
    );
    const get = async (lake: string) => http.get({ url, service: 'The service', conditionalFor: lake });
    expect((await get('a')).notModified).toBe(false);
    expect((await get('a')).notModified).toBe(false);
    await http.confirm();
    expect((await get('a')).notModified).toBe(true);
    expect(seen.at(-1)?.headers['if-modified-since']).toBe('Thu, 05 Mar 2026 10:00:00 GMT');
    expect((await get('b')).notModified, 'another lake has not got this reply').toBe(false);
  });
});

describe('what is said to the service and to the reader', () => {
  it('sends the contact, and nothing that could break the header', async () => {
    const { get } = await serve((_, response) => response.end('{}'), {
      contact: 'me@example.org\r\nx-evil: 1',
    });
    await get();
    expect(seen[0]?.headers['user-agent']).toBe('thawline (me@example.orgx-evil: 1)');
    expect(seen[0]?.headers['x-evil']).toBeUndefined();
  });

  it('never repeats addresses or long tokens from a reply', async () => {
    const reason = `Bad key ${'k'.repeat(40)} see https://example.org/?api_key=abc`;
    const { get } = await serve((_, response) =>
      response.writeHead(403).end(JSON.stringify({ description: reason })),
    );
    await expect(get()).rejects.toThrow('("Bad key (hidden) see (address)")');
  });

  it('goes through the fetch of the moment, so that prepared replies reach it', async () => {
    nock('https://example.org').get('/x').reply(200, { ok: true });
    client = testClient();
    expect((await client.get({ url: 'https://example.org/x', service: 'The service' })).text).toBe(
      '{"ok":true}',
    );
  });

  it('refuses an address that is none', async () => {
    client = testClient();
    await expect(client.get({ url: 'not an address', service: 'The service' })).rejects.toThrow(
      'not a web address',
    );
  });
});
