/** What an operator told is known from then on, and what was taken back was known until then. */
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { RecordStore, Release } from '../../src/record/index.ts';
import { freshRecord } from '../helpers/record.ts';
import { DAY, HOUR, START } from './rows.ts';

let record: RecordStore;
beforeEach(async () => {
  record = await freshRecord();
});
afterEach(() => record.close());

const LAKE = 'pine-hollow';
const release = (id: string, fromMs: number, more: Partial<Release> = {}): Release => ({
  id,
  lake: LAKE,
  fromMs,
  toMs: fromMs + 4 * HOUR,
  flowM3s: 120,
  ...more,
});
const tell = (knownMs: number, ...add: Release[]) => record.changeReleases({ add, takeBack: [] }, knownMs);
const known = async (asOfMs: number) =>
  ((await record.view(LAKE, asOfMs)).releases ?? []).map(({ id }) => id);

describe('hours of release in a view', () => {
  it('are known from when they were told, for hours that are still to come', async () => {
    await tell(START + 2 * HOUR, release('a', START + 10 * HOUR));
    expect(await known(START + HOUR)).toEqual([]);
    expect(await known(START + 2 * HOUR)).toEqual(['a']);
    const [one] = (await record.view(LAKE, START + DAY)).releases ?? [];
    expect(one).toEqual({ ...release('a', START + 10 * HOUR), toldMs: START + 2 * HOUR });
  });

  it('stand before they were taken back, and not after', async () => {
    await tell(START, release('a', START + 10 * HOUR));
    await record.changeReleases(
      { add: [release('b', START + 11 * HOUR, { units: 2 })], takeBack: ['a'] },
      START + 5 * HOUR,
    );
    expect(await known(START + 4 * HOUR)).toEqual(['a']);
    expect(await known(START + 5 * HOUR)).toEqual(['b']);
  });

  it('keep the day on which they were first told, and get a new one after they were taken back', async () => {
    const toldMs = async (asOfMs: number) => (await record.view(LAKE, asOfMs)).releases?.[0]?.toldMs;
    await tell(START, release('a', START + 10 * HOUR));
    await tell(START + HOUR, release('a', START + 10 * HOUR));
    expect(await toldMs(START + 2 * HOUR)).toBe(START);
    await record.changeReleases({ add: [], takeBack: ['a'] }, START + 3 * HOUR);
    await tell(START + 4 * HOUR, release('a', START + 10 * HOUR));
    expect(await toldMs(START + 5 * HOUR)).toBe(START + 4 * HOUR);
  });

  it('are those of one lake, and not of months ago', async () => {
    await tell(START, release('a', START), release('b', START, { lake: 'other' }));
    expect(await known(START + DAY)).toEqual(['a']);
    expect(await known(START + 70 * DAY)).toEqual([]);
    expect((await record.releases(LAKE, 0, START + 70 * DAY)).map(({ id }) => id)).toEqual(['a']);
  });

  it('are the same through the window of a season', async () => {
    await tell(START + 2 * HOUR, release('a', START + 10 * HOUR));
    const window = await record.window(LAKE, START - DAY, START + DAY);
    expect((await window.view(LAKE, START + HOUR)).releases).toBeUndefined();
    expect((await window.view(LAKE, START + 3 * HOUR)).releases).toHaveLength(1);
  });
});
