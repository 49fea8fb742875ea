/** The roles that docs/many-machines.md writes down are enough for workers and webs, and for no more. */
import { EventEmitter, once } from 'node:events';
import { setTimeout as sleep } from 'node:timers/promises';
import pg from 'pg';
import { expect, inject, it } from 'vitest';
import { readersWanting } from '../../src/record/delivery/readers.ts';
import { openServerRecord } from '../../src/record/openServer.ts';
import { openEngine, statusOf } from '../../src/schedule/index.ts';
import { addReaders, config, MORNING_MS, silent } from '../delivery/kit.ts';
import { emptyDatabase } from '../helpers/postgresServer.ts';
import { grantsOf } from './grants.ts';
import { DAY, row, START } from '../record/rows.ts';

const as = (address: string, user: string): string => address.replace(/\/\/[^@]*@/, `//${user}@`);

it('lets a worker work and a web serve, without the right to make a table', async () => {
  const address = await emptyDatabase(inject('postgresAddress'));
  const owner = await openServerRecord(address);
  await (await openEngine(owner, address, { log: silent })).stop();
  const admin = new pg.Client({ connectionString: address });
  await admin.connect();
  await admin.query('drop role if exists thawline_work; drop role if exists thawline_web');
  await admin.query(grantsOf());

  const worker = await openServerRecord(as(address, 'thawline_work'));
  await worker.putObservations([row(), row({ atMs: START + 200 * DAY })]);
  const engine = await openEngine(worker, as(address, 'thawline_work'), { log: silent });
  const done = new Promise<object>((resolve) =>
    engine.serve('issue', (data) => {
      resolve(data);
      return Promise.resolve();
    }),
  );
  await engine.ask('issue', 'a', { amend: 'x' });
  expect(await done).toEqual({ amend: 'x' });
  await engine.stop();

  const web = await openServerRecord(as(address, 'thawline_web'));
  await addReaders(web, 2);
  const wish = { lakeId: 'ossarly', edition: 'morning', weekday: 5 } as const;
  expect(await readersWanting(worker, wish, '', 10)).toHaveLength(2);
  expect((await statusOf(web, config(), MORNING_MS)).lakes).toHaveLength(1);
  await expect(web.putObservations([row({ value: 1 })])).rejects.toMatchObject({
    code: 'record',
    message: expect.stringMatching(/refused this user/),
  });
  for (const one of ['thawline_work', 'thawline_web']) {
    const client = new pg.Client({ connectionString: as(address, one) });
    await client.connect();
    await expect(client.query('create table mine (id int)')).rejects.toMatchObject({ code: '42501' });
    await client.end();
  }
  await worker.close();
  await web.close();
  await owner.close();
  await admin.end();
});

it('refuses to change the tables under workers, and changes nothing', async () => {
  const address = await emptyDatabase(inject('postgresAddress'));
  const record = await openServerRecord(address);
  const { seeWorker, forgetWorker } = await import('../../src/record/schedule/workers.ts');
  const { migrate } = await import('../../src/record/migrate.ts');
  const { MIGRATIONS } = await import('../../src/record/migrations/index.ts');
  const { isChangedByNewer } = await import('../../src/record/index.ts');
  const { sql } = await import('kysely');
  const next = [
    ...MIGRATIONS,
    {
      name: 'next',
      up: (db: Parameters<(typeof MIGRATIONS)[number]['up']>[0]) =>
        sql`create table next (id int)`.execute(db).then(() => undefined),
    },
  ];
  const upgrade = () => migrate(record.db, 'in PostgreSQL', Date.now(), () => Promise.resolve(), next);
  await seeWorker(record, 'old', Date.now());
  await seeWorker(record, 'older', Date.now());
  await expect(upgrade()).rejects.toThrow(/2 workers of an older version are at work/);
  expect(await isChangedByNewer(record)).toBe(false);
  for (const owner of ['old', 'older']) await forgetWorker(record, owner);
  await upgrade();
  // What an old worker sees at its next beat, whereupon it stops.
  expect(await isChangedByNewer(record)).toBe(true);
  await record.close();
});

it('lets no worker in while the tables are changed, and the one that waited finds a newer record', async () => {
  const address = await emptyDatabase(inject('postgresAddress'));
  const [changing, starting] = [await openServerRecord(address), await openServerRecord(address)];
  const { seeWorker } = await import('../../src/record/schedule/workers.ts');
  const { migrate } = await import('../../src/record/migrate.ts');
  const { MIGRATIONS } = await import('../../src/record/migrations/index.ts');
  const { isChangedByNewer } = await import('../../src/record/index.ts');
  const gate = new EventEmitter();
  const begun = once(gate, 'begun');
  const slow = async (): Promise<void> => {
    gate.emit('begun');
    await once(gate, 'go');
  };
  const upgrade = migrate(changing.db, 'in PostgreSQL', Date.now(), () => Promise.resolve(), [
    ...MIGRATIONS,
    { name: 'slow', up: slow },
  ]);
  await begun;
  let isIn = false;
  const word = seeWorker(starting, 'late', Date.now()).then(() => (isIn = true));
  await sleep(300);
  expect(isIn).toBe(false);
  gate.emit('go');
  await Promise.all([upgrade, word]);
  expect(await isChangedByNewer(starting)).toBe(true);
  for (const record of [changing, starting]) await record.close();
});
