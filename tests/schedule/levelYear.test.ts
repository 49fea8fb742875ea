import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { freshRecord } from '../helpers/record.ts';
import type { RecordStore } from '../../src/record/index.ts';
import { fillLevelYear, LEVEL_YEAR } from '../../src/schedule/levelYear.ts';
import { startReplayServer, type ReplayServer, type UsgsReplayDay } from '../helpers/replayServer.ts';
import { gauge, HOUR_MS, inventedLake, NOW_MS, testClient, testDeps } from '../services/support.ts';

const DAY_MS = 24 * HOUR_MS;
const lake = inventedLake({ weather: [], gauges: [gauge()] });
const dates = Array.from({ length: 366 }, (_, back): UsgsReplayDay => ({
  site: 'USGS-00000001',
  parameter: '00062',
  series: 'd',
  statistic: '00003',
  date: new Date(NOW_MS - (back + 1) * DAY_MS).toISOString().slice(0, 10),
  value: String(610 + back / 100),
  unit: 'ft',
}));

let record: RecordStore;
let server: ReplayServer;
beforeEach(async () => {
  record = await freshRecord();
  server = await startReplayServer({ usgsDaily: dates });
});
afterEach(async () => {
  await record.close();
  await server.close();
});

const fill = (afterMs: number, of = lake, answering = ['usgs']) =>
  fillLevelYear(record, of, testDeps(server, testClient(), { nowMs: NOW_MS + afterMs }), new Set(answering));
const logged = async (nowMs: number) =>
  (await record.view(lake.id, nowMs)).retrievals.filter(({ source }) => source === LEVEL_YEAR);

describe('the year of levels', () => {
  it('is asked for on first use, not again within the month, and then once more', async () => {
    await fill(0);
    expect(server.seen).toHaveLength(1);
    const { levelDays } = await record.view(lake.id, NOW_MS, { days: 420, levelRowDays: 45 });
    expect(levelDays).toHaveLength(366);
    expect(await logged(NOW_MS)).toMatchObject([{ ok: true, problem: '' }]);
    for (const days of [0.2, 1, 7, 29]) await fill(days * DAY_MS);
    expect(server.seen).toHaveLength(1);
    await fill(30 * DAY_MS);
    expect(server.seen).toHaveLength(2);
  });

  it('that could not be had is named, and asked for again the next morning only', async () => {
    server.setFault('usgs', 'html');
    await fill(0);
    expect(await logged(NOW_MS)).toMatchObject([{ ok: false }]);
    expect((await logged(NOW_MS))[0]?.problem).toMatch(/past year's levels could not be fetched.*USGS/);
    server.setFault('usgs', null);
    const before = server.seen.length;
    await fill(3 * HOUR_MS);
    expect(server.seen).toHaveLength(before);
    await fill(DAY_MS);
    expect(server.seen).toHaveLength(before + 1);
    expect((await logged(NOW_MS + DAY_MS)).at(-1)).toMatchObject({ ok: true });
  });

  it('is not asked of a service that is down this morning', async () => {
    await fill(0, lake, ['open-meteo']);
    expect(server.seen).toHaveLength(0);
    expect(await logged(NOW_MS)).toEqual([]);
  });

  it('is not asked for where no level gauge has one', async () => {
    await fill(
      0,
      inventedLake({ weather: [], gauges: [gauge({ variable: 'discharge', parameter: '00060' })] }),
    );
    expect(server.seen).toHaveLength(0);
    expect(await logged(NOW_MS)).toEqual([]);
  });
});
