/** A program is told of every issue: signed, once where it answers, again where it does not, and never without a secret. */
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { storeBriefing } from '../../src/record/schedule/briefings.ts';
import { openRecord, type RecordStore } from '../../src/record/index.ts';
import { claimRun, endRun } from '../../src/record/schedule/runs.ts';
import { signedHeaders, tellWebhooks } from '../../src/schedule/webhooks.ts';
import { config, LOCAL_DATE, MORNING_MS, silent, type Clock } from '../delivery/kit.ts';
import { sampleFacts } from '../helpers/sampleBriefing.ts';

const SECRET = 'a secret of twenty-four or more';
let record: RecordStore;
let server: Server;
let clock: Clock;
let status = 200;
const taken: { headers: Record<string, unknown>; body: string }[] = [];

beforeEach(async () => {
  record = await openRecord(':memory:');
  clock = { ms: MORNING_MS };
  status = 200;
  taken.length = 0;
  server = createServer((request, response) => {
    let body = '';
    request.on('data', (chunk: Buffer) => (body += chunk.toString()));
    request.on('end', () => {
      taken.push({ headers: request.headers, body });
      response.writeHead(status).end();
    });
  });
  await new Promise<void>((ready) => server.listen(0, '127.0.0.1', () => ready()));
  const key = { lakeId: 'ossarly', localDate: LOCAL_DATE, edition: 'morning' } as const;
  await claimRun(record, key, { owner: 'o', nowMs: clock.ms, leaseMs: 1000, dueMs: clock.ms });
  await storeBriefing(record, key, {
    issuedMs: clock.ms,
    documentJson: JSON.stringify(sampleFacts()),
    renderings: [],
  });
  await endRun(record, key, 'o', { state: 'issued', nowMs: clock.ms });
});
afterEach(async () => {
  server.closeAllConnections();
  await new Promise<void>((closed) => server.close(() => closed()));
  await record.close();
});

const tell = (env: Record<string, string> = { HOOK: SECRET }, lakes?: string[]): Promise<void> =>
  tellWebhooks({
    record,
    log: silent,
    now: () => clock.ms,
    env,
    config: config({
      webhooks: [
        {
          url: `http://127.0.0.1:${(server.address() as AddressInfo).port}/`,
          secretEnv: 'HOOK',
          ...(lakes === undefined ? {} : { lakes }),
        },
      ],
    }),
  });

describe('a webhook', () => {
  it('is told once, with a signature over id, time and body', async () => {
    await tell();
    await tell();
    expect(taken).toHaveLength(1);
    const [{ headers, body }] = taken as [(typeof taken)[0]];
    expect(JSON.parse(body)).toMatchObject({
      type: 'briefing.issued',
      lake: 'ossarly',
      date: LOCAL_DATE,
      edition: 'morning',
    });
    expect(body).not.toContain('{{');
    expect(headers['webhook-id']).toBe(`ossarly.${LOCAL_DATE}.morning`);
    const again = signedHeaders(
      `ossarly.${LOCAL_DATE}.morning`,
      body,
      SECRET,
      Number(headers['webhook-timestamp']) * 1000,
    );
    expect(headers['webhook-signature']).toBe(again['webhook-signature']);
  });

  it('is told again later when it does not take it, with the same id, and not at once', async () => {
    status = 500;
    await tell();
    await tell();
    expect(taken).toHaveLength(1);
    clock.ms += 61_000;
    status = 204;
    await tell();
    clock.ms += 3_600_000;
    await tell();
    expect(taken.map(({ headers }) => headers['webhook-id'])).toEqual(
      Array(2).fill(`ossarly.${LOCAL_DATE}.morning`),
    );
  });

  it('is not told of other lakes, of old news, or without a secret', async () => {
    await tell({ HOOK: SECRET }, ['cedar']);
    await tell({ HOOK: 'short' });
    clock.ms += 13 * 3_600_000;
    await tell();
    expect(taken).toEqual([]);
  });
});

describe('the signature', () => {
  it('is the one of the published example', () => {
    // https://github.com/standard-webhooks/standard-webhooks, test vector of the reference libraries (from memory).
    const headers = signedHeaders(
      'msg_p5jXN8AQM9LWM0D4loKWxJek',
      '{"test": 2432232314}',
      'whsec_MfKQ9r8GKYqrTwjUPD8ILPZIo2LaLaSw',
      1_614_265_330_000,
    );
    expect(headers['webhook-signature']).toBe('v1,g0hM9SsE+OTPJTGt/tmIKtSyZlE3uFJELVlNIOLJ1OE=');
  });
});
