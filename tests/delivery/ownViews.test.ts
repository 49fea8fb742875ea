/** What readers want otherwise than the lake has it, in either database. */
import { afterEach, beforeEach, expect, it } from 'vitest';
import { addReader, listReaders, type ReaderWishes } from '../../src/delivery/index.ts';
import { loadOwnRendering, ownKey, storeOwnRenderings, wantedViews } from '../../src/record/delivery/own.ts';
import type { RecordStore } from '../../src/record/index.ts';
import { pruneRenderings } from '../../src/record/schedule/briefings.ts';
import { freshRecord } from '../helpers/record.ts';
import { LOCAL_DATE, MORNING_MS } from './kit.ts';

let record: RecordStore;
beforeEach(async () => {
  record = await freshRecord();
});
afterEach(() => record.close());

const door = { knownLakes: ['ossarly'], nowMs: MORNING_MS };
const add = (name: string, wishes: Partial<ReaderWishes>) =>
  addReader(record, `${name}@example.org`, wishes, door);
const EARLY = { from: '05:30', to: '09:00' };

it('are counted by view, most wanted first; who wants what the lake has is in none', async () => {
  await add('a', { lakes: ['ossarly'] });
  await add('b', { lakes: ['ossarly'], fishing: { from: '15:00', to: '19:00' } });
  await add('c', { lakes: ['ossarly'], fishing: EARLY });
  await add('d', { lakes: ['ossarly'], fishing: EARLY });
  await add('e', { lakes: ['ossarly'], language: 'en' });
  const views = await wantedViews(record, 'ossarly');
  expect(views.map(({ fishing, language, readers }) => [fishing, language, readers])).toEqual(
    expect.arrayContaining([
      ['05:30-09:00', null, 2],
      ['15:00-19:00', null, 1],
      [null, 'en', 1],
    ]),
  );
  expect(views[0]?.readers).toBe(2);
  expect(views).toHaveLength(3);
});

it('are kept of a reader, changed, and taken back', async () => {
  await add('a', { lakes: ['ossarly'], fishing: EARLY, language: 'en' });
  const kept = async () => {
    for await (const { fishing, language } of listReaders(record)) return { fishing, language };
    return undefined;
  };
  expect(await kept()).toEqual({ fishing: EARLY, language: 'en' });
  await add('a', { units: 'metric' });
  expect(await kept()).toEqual({ fishing: EARLY, language: 'en' });
  await add('a', { fishing: null, language: null });
  expect(await kept()).toEqual({ fishing: null, language: null });
});

it.each([
  { from: '05:10', to: '09:00' },
  { from: '09:00', to: '05:00' },
  { from: '09:00', to: '' },
  { from: '9', to: '24:00' },
])('are refused where they are no hours: %j', async (fishing) => {
  await expect(add('a', { lakes: ['ossarly'], fishing })).rejects.toThrow(/full or half hours/);
  expect(await wantedViews(record, 'ossarly')).toEqual([]);
});

it('have renderings of their own, which a second issue replaces and time removes', async () => {
  const key = { lakeId: 'ossarly', localDate: LOCAL_DATE, edition: 'morning' } as const;
  const own = ownKey({ language: null, fishing: '05:30-09:00' });
  const view = { units: 'us', form: 'full', own } as const;
  await storeOwnRenderings(record, key, [{ ...view, json: '{"a":1}' }]);
  expect(await loadOwnRendering(record, key, view)).toBe('{"a":1}');
  expect(await loadOwnRendering(record, key, { ...view, units: 'metric' })).toBeUndefined();
  await storeOwnRenderings(record, key, [{ ...view, units: 'metric', json: '{"b":2}' }]);
  expect(await loadOwnRendering(record, key, view)).toBeUndefined();
  expect(await pruneRenderings(record, '2026-03-07')).toBe(1);
  expect(await loadOwnRendering(record, key, { ...view, units: 'metric' })).toBeUndefined();
});
