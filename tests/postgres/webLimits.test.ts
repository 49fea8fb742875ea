/** Two web processes on one server count what a visitor asks together. */
import type { Hono } from 'hono';
import { afterEach, beforeEach, describe, expect, inject, it } from 'vitest';
import { loadRules } from '../../src/config/rules.ts';
import type { RecordStore } from '../../src/record/index.ts';
import { openServerRecord } from '../../src/record/openServer.ts';
import { createWebApp } from '../../src/web/index.ts';
import { emptyDatabase } from '../helpers/postgresServer.ts';
import { BASE, CONFIG, NOW, SECRET } from '../web/kit.ts';

const VISITOR = '203.0.113.7';
const RULES = loadRules();
let clockMs = NOW;
const opened: RecordStore[] = [];
let apps: Hono[];
beforeEach(async () => {
  clockMs = NOW;
  const address = await emptyDatabase(inject('postgresAddress'));
  apps = [];
  for (let n = 0; n < 2; n += 1) {
    const record = await openServerRecord(address);
    opened.push(record);
    const config = { ...CONFIG, recordPath: 'postgres:NAME' };
    apps.push(createWebApp({ config, record, rules: RULES, secret: SECRET, now: () => clockMs }));
  }
});
afterEach(async () => {
  for (const record of opened.splice(0)) await record.close();
});

const ask = async (n: number, method: 'GET' | 'POST', from = VISITOR): Promise<number> => {
  const headers = { 'x-forwarded-for': from, origin: BASE };
  const app = apps[n % apps.length];
  const path = method === 'GET' ? '/style.css' : '/subscribe';
  return (await app!.request(BASE + path, { method, headers })).status;
};

describe('changes of one visitor', () => {
  it('are as many over two processes as at one, and as many again when ten minutes are over', async () => {
    const most = async (): Promise<number> => {
      let passed = 0;
      for (let n = 0; n < 40; n += 1) if ((await ask(n, 'POST')) !== 429) passed += 1;
      return passed;
    };
    expect(await most()).toBe(30);
    expect(await ask(0, 'POST', '203.0.113.8')).not.toBe(429);
    clockMs += 9 * 60_000;
    expect(await most()).toBe(0);
    clockMs += 60_000;
    expect(await most()).toBe(30);
  });

  it('that come at the same moment are not more', async () => {
    const answers = await Promise.all(Array.from({ length: 60 }, (_, n) => ask(n, 'POST')));
    expect(answers.filter((status) => status !== 429)).toHaveLength(30);
  });

  it('leave no address in the record, and nothing once no window looks back to it', async () => {
    for (let n = 0; n < 4; n += 1) await ask(n, 'POST');
    const [record] = opened;
    const rows = () => record!.db.selectFrom('web_requests').selectAll().execute();
    expect(await rows()).toHaveLength(1);
    expect(JSON.stringify(await rows())).not.toContain(VISITOR);
    clockMs += 21 * 60_000;
    await ask(0, 'POST', '203.0.113.9');
    expect(await rows()).toHaveLength(1);
  });
});

describe('pages read by one visitor', () => {
  it('are as many over two processes as at one, but for nine that each may not have told', async () => {
    let passed = 0;
    for (let n = 0; n < 700; n += 1) if ((await ask(n, 'GET')) === 200) passed += 1;
    expect(passed).toBeGreaterThanOrEqual(600);
    expect(passed).toBeLessThanOrEqual(618);
  });

  it('are answered while the record is away, by the count of each process', async () => {
    await opened[0]!.close();
    for (let n = 0; n < 600; n += 1) expect(await ask(0, 'GET')).toBe(200);
    expect(await ask(0, 'GET')).toBe(429);
    opened.shift();
  });
});
