/** The outlooks that issues leave behind for later ones, in whichever database. */
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { RecordStore } from '../../src/record/index.ts';
import { storeBriefing } from '../../src/record/schedule/briefings.ts';
import { addDays } from '../../src/units/time/calendar.ts';
import { freshRecord } from '../helpers/record.ts';
import { DAY, START } from './rows.ts';

const LAKE = 'pine-hollow';
let record: RecordStore;
beforeAll(async () => {
  record = await freshRecord();
});
afterAll(() => record.close());

const dateOf = (index: number): string => new Date(START + index * DAY).toISOString().slice(0, 10);

async function issue(index: number, waterC: number, leads: readonly number[]): Promise<void> {
  const date = dateOf(index);
  const days = leads.map((lead) => ({
    ...{ date: addDays(date, lead), forecast: true },
    ...{ waterC, waterLowC: waterC - 1, waterHighC: waterC + 1 },
  }));
  const documentJson = JSON.stringify({
    ...{ status: 'scheduled', demo: false, preview: false, date, series: { days } },
  });
  const key = { lakeId: LAKE, localDate: date, edition: 'morning' } as const;
  await storeBriefing(record, key, { issuedMs: START + index * DAY, documentJson, renderings: [] });
}
const known = async (index: number, days = 60) =>
  (await record.view(LAKE, START + index * DAY, { days })).outlooks ?? [];

it('are known to the mornings after, oldest first, and to no morning before', async () => {
  await issue(1, 12, [1, 2]);
  await issue(0, 11, [1]);
  expect(await known(0)).toEqual([]);
  expect(await known(1)).toEqual([{ issued: dateOf(0), leadDays: 1, waterC: 11, halfC: 1 }]);
  expect((await known(2)).map(({ issued, leadDays }) => [issued, leadDays])).toEqual([
    [dateOf(0), 1],
    [dateOf(1), 1],
    [dateOf(1), 2],
  ]);
  // Of another lake nothing, and nothing from before the days that were asked for.
  expect((await record.view('elsewhere', START + 2 * DAY)).outlooks).toBeUndefined();
  expect((await known(2, 1)).map(({ issued }) => issued)).toEqual([dateOf(1), dateOf(1)]);
});

it('stored again stand in the place of those before, fewer days among them', async () => {
  await issue(5, 15, [1, 2, 3]);
  await issue(5, 16, [1]);
  expect((await known(6)).filter(({ issued }) => issued === dateOf(5))).toEqual([
    { issued: dateOf(5), leadDays: 1, waterC: 16, halfC: 1 },
  ]);
});

it('are removed when the rules no longer keep them', async () => {
  await record.compact(START + 403 * DAY, new Map());
  const left = await record.db.selectFrom('outlook').select('local_date').distinct().execute();
  expect(left.map((row) => row.local_date)).toEqual([dateOf(5)]);
});
