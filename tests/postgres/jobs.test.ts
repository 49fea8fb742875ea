/** The engine's jobs on a real server: a report of a bounce becomes one, and one that fails again and again is seen. */
import { setTimeout as pause } from 'node:timers/promises';
import { afterEach, beforeEach, expect, inject, it, vi } from 'vitest';
import { createWebApp } from '../../src/web/index.ts';
import { loadRules } from '../../src/config/rules.ts';
import { readerById } from '../../src/record/delivery/readers.ts';
import type { RecordStore } from '../../src/record/index.ts';
import { openServerRecord } from '../../src/record/openServer.ts';
import { failuresOf, retryFailure } from '../../src/record/schedule/failures.ts';
import { openEngine, runWorker, type ScheduleDeps } from '../../src/schedule/index.ts';
import { address, addReaders, config, MORNING_MS, SECRET, silent } from '../delivery/kit.ts';
import { emptyDatabase } from '../helpers/postgresServer.ts';
import { deps } from '../schedule/kit.ts';

const BEARER = '0123456789abcdef0123456789abcdef';
const clock = { ms: MORNING_MS };
const settings = config({ recordPath: 'postgres:NAME' });
let database: string;
let record: RecordStore;
beforeEach(async () => {
  clock.ms = MORNING_MS - 6 * 3_600_000;
  database = await emptyDatabase(inject('postgresAddress'));
  record = await openServerRecord(database);
});
afterEach(() => record.close());

const PASS_MS = 200;

/** A worker until the work is done. */
async function whileWorking(change: Partial<ScheduleDeps>, work: () => Promise<void>): Promise<void> {
  const engine = await openEngine(record, database, { log: silent, pollS: 0.5 });
  const stop = new AbortController();
  const worker = runWorker(
    { ...deps(record, clock, change, settings), signal: stop.signal },
    engine,
    undefined,
    { beatMs: 200, passMs: PASS_MS },
  );
  try {
    await work();
  } finally {
    stop.abort();
    await worker;
  }
}
const soon = (check: () => Promise<void>): Promise<void> =>
  vi.waitFor(check, { timeout: 30_000, interval: 100 });

it('hands a report that a web process took down to a worker', async () => {
  const [id = ''] = await addReaders(record, 1);
  const env = { THAWLINE_BOUNCES_SECRET: BEARER };
  const now = (): number => clock.ms;
  const app = createWebApp({ config: settings, record, rules: loadRules(), secret: SECRET, now, env });
  const reply = await app.request('https://briefing.example/bounces', {
    method: 'POST',
    headers: { authorization: `Bearer ${BEARER}`, 'content-type': 'application/json' },
    body: JSON.stringify({ address: address(0), kind: 'complaint' }),
  });
  expect(reply.status).toBe(204);
  expect((await readerById(record, id))?.state).toBe('active');
  await whileWorking({}, () =>
    soon(async () => expect((await readerById(record, id))?.state).toBe('complained')),
  );
});

it('counts a job that fails, by its queue and key, leaves it alone for a while, and forgets it when it succeeds', async () => {
  const rename = (from: string, to: string): Promise<unknown> =>
    record.db.transaction().execute((tx) => tx.schema.alterTable(from).renameTo(to).execute());
  await rename('renderings', 'renderings_away');
  const failed = async () =>
    (await failuresOf(record)).map(({ queue, key, attempts }) => ({ queue, key, attempts }));
  await whileWorking({}, async () => {
    // Once more at once; what was asked for before the first was noted may make it a third time.
    await soon(async () => {
      const [first] = await failed();
      expect(first).toMatchObject({ queue: 'retention', key: 'retention' });
      expect(first?.attempts).toBeGreaterThanOrEqual(2);
    });
    await pause(2 * PASS_MS);
    const rested = await failed();
    expect(rested).toHaveLength(1);
    await pause(5 * PASS_MS);
    expect(await failed()).toEqual(rested);
    await rename('renderings_away', 'renderings');
    // It rests for a minute by the clock, which stands still here; somebody does not want to wait.
    const [row] = await failuresOf(record);
    await retryFailure(record, row?.id ?? 0);
    await soon(async () => expect(await failed()).toEqual([]));
  });
});
