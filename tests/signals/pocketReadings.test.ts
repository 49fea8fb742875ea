import type { DateTime } from 'luxon';
import { describe, expect, it } from 'vitest';
import type { Reading, RecordView } from '../../src/record/types.ts';
import { estimateWaters, readSignals, type SignalReport } from '../../src/signals/index.ts';
import { recordView, testLake } from '../helpers/weatherRecord.ts';

const AS_OF = '2026-03-06T11:15:00Z'; // 05:15 at the lake
const AS_OF_MS = Date.parse(AS_OF);
const HOUR_MS = 3_600_000;

const [draw] = testLake.pockets;
const lake = {
  ...testLake,
  pockets: [draw!, { ...draw!, id: 'cove', name: 'South Cove', watershedKm2: 0.4 }],
};
/** Mild days and cool nights: a shallow pocket swings about the lake. */
const weather = (local: DateTime) => {
  const light = Math.max(0, Math.sin(((local.hour - 6) / 12) * Math.PI));
  return { air: 8 + 5 * light, sun: 500 * light };
};
/** The same weather as it was known that many hours before. */
const viewBefore = (hours: number): RecordView =>
  recordView({
    asOf: new Date(AS_OF_MS - hours * HOUR_MS).toISOString(),
    pastDays: 60 - hours / 24,
    weather,
  });
const plain = viewBefore(0);

const reading = (pocket: string | undefined, hoursAgo: number, more: Partial<Reading> = {}): Reading => ({
  id: `${pocket ?? 'main'}-${hoursAgo}`,
  lake: lake.id,
  atMs: AS_OF_MS - hoursAgo * HOUR_MS,
  depthM: 0.3,
  sdC: 0.4,
  where: 'at the log',
  ...(pocket === undefined ? {} : { pocket }),
  ...more,
});
const report = (...readings: Reading[]): SignalReport => readSignals({ ...plain, readings }, lake);
const pocketOf = (from: SignalReport, id: string) => from.pockets.find((pocket) => pocket.id === id)!;
const free = () => report();
/** What the pocket's model alone says at the hour of a reading, and that much beside it. */
const beside = (id: string, hoursAgo: number, offK: number): number => {
  const then = estimateWaters(viewBefore(hoursAgo), lake);
  return then.pockets.find((pocket) => pocket.id === id)!.surfaceC + offK;
};

describe('a reading taken in a pocket', () => {
  const warm = () => reading('draw', 14, { waterC: beside('draw', 14, 2) });
  const read = () => report(warm());

  it('moves that pocket towards it, says from where, and makes it surer', () => {
    const before = pocketOf(free(), 'draw');
    const after = pocketOf(read(), 'draw');
    expect(after.surfaceC.value).toBeGreaterThan(before.surfaceC.value + 0.3);
    expect(after.surfaceC.value).toBeLessThan(before.surfaceC.value + 2);
    expect(after.lastReading?.beforeC).toBeCloseTo(before.surfaceC.value, 1);
    expect(before.lastReading?.beforeC).toBeUndefined();
    const width = ({ surfaceC }: typeof after): number => (surfaceC.high ?? NaN) - (surfaceC.low ?? NaN);
    expect(width(after)).toBeLessThan(0.95 * width(before));
    expect(after.surfaceC.source).toMatchObject({ code: 'pocketModel', readingAgeDays: 1 });
  });

  it('reaches what the day is judged on', () => {
    const difference = (of: SignalReport): number => of.conditions.signals.pocketMinusMainC?.value ?? NaN;
    expect(difference(read())).toBeGreaterThan(difference(free()) + 0.3);
  });

  const whyOf = (of: SignalReport): string | undefined => {
    const [first] = pocketOf(of, 'draw').story;
    return first?.code === 'differs' ? first.why.code : undefined;
  };

  it('is named as the reason where it, not the weather, makes the pocket differ', () => {
    expect(whyOf(free())).not.toBe('readings');
    const much = report(reading('draw', 1, { waterC: beside('draw', 1, 3) }));
    expect(pocketOf(much, 'draw').story[0]).toMatchObject({ code: 'differs', why: { code: 'readings' } });
    const agreeing = report(reading('draw', 1, { waterC: beside('draw', 1, 0) }));
    expect(whyOf(agreeing)).not.toBe('readings');
  });

  it('teaches neither the main lake nor another pocket', () => {
    const [taught, plainly] = [read(), free()];
    expect(taught.conditions.signals.waterC).toEqual(plainly.conditions.signals.waterC);
    expect(pocketOf(taught, 'cove')).toEqual(pocketOf(plainly, 'cove'));
    expect(taught.readingsUsed).toEqual([]);
    expect(taught.estimateBeforeReadingC).toBeNull();
  });

  it('goes with one in another pocket: each learns its own', () => {
    const cold = reading('cove', 13, { waterC: beside('cove', 13, -1.5) });
    const both = report(warm(), cold);
    expect(pocketOf(both, 'draw')).toEqual(pocketOf(read(), 'draw'));
    expect(pocketOf(both, 'cove').surfaceC.value).toBeLessThan(pocketOf(free(), 'cove').surfaceC.value - 0.3);
  });

  it('thanks the last of several for what it did itself', () => {
    const second = reading('draw', 3, { waterC: beside('draw', 3, 0) });
    const two = pocketOf(report(warm(), second), 'draw');
    expect(two.lastReading?.beforeC).toBeCloseTo(pocketOf(read(), 'draw').surfaceC.value, 1);
    expect(two.surfaceC.value).toBeLessThan(two.lastReading?.beforeC ?? NaN);
  });

  it('does not count before it was taken', () => {
    const earlier = readSignals({ ...viewBefore(15), readings: [warm()] }, lake);
    expect(pocketOf(earlier, 'draw').lastReading?.beforeC).toBeUndefined();
  });
});

describe('the age of a reading in a pocket', () => {
  const aged = (hoursAgo: number) => reading('draw', hoursAgo, { waterC: beside('draw', hoursAgo, 1.5) });
  const movedK = (hoursAgo: number): number =>
    pocketOf(report(aged(hoursAgo)), 'draw').surfaceC.value - pocketOf(free(), 'draw').surfaceC.value;

  it('is a week in which the reader is thanked', () => {
    expect(pocketOf(report(aged(24 * 6)), 'draw').lastReading?.beforeC).toBeDefined();
    expect(pocketOf(report(aged(24 * 8)), 'draw').lastReading?.beforeC).toBeUndefined();
  });

  it('takes weight from it: less after days, little before it leaves, nothing after three weeks', () => {
    const moved = [6, 24 * 4, 24 * 17, 24 * 20, 24 * 22].map(movedK);
    expect(moved[0]).toBeGreaterThan(0.4);
    for (let i = 1; i < moved.length; i++) expect(moved[i]).toBeLessThan(moved[i - 1] ?? NaN);
    expect(moved[2]).toBeGreaterThan(0.1);
    expect(moved[3]).toBeLessThan(0.5 * (moved[2] ?? NaN));
    expect(moved[4]).toBe(0);
  });

  it('is said when it is too old, and is no gap of the briefing', () => {
    const old = reading('draw', 24 * 30, { waterC: 9 });
    const { refused } = estimateWaters({ ...plain, readings: [old] }, lake);
    expect(refused).toEqual([expect.objectContaining({ id: old.id, kind: 'incomparable' })]);
    expect(refused[0]?.reason).toEqual({ code: 'tooOld', days: 21 });
    expect(report(old).conditions.gaps).toEqual(free().conditions.gaps);
  });
});

describe('a reading in a pocket that cannot be right', () => {
  const wild = reading('draw', 10, { waterC: 24 });

  it('moves nothing and is named with its pocket and the reason', () => {
    const got = report(wild);
    expect(pocketOf(got, 'draw').surfaceC).toEqual(pocketOf(free(), 'draw').surfaceC);
    expect(got.conditions.gaps.map(({ fact }) => fact)).toContainEqual({
      code: 'pocketReadingRefused',
      pocket: 'North Draw',
      reason: expect.objectContaining({ code: 'tooFar', of: 'pocket', fate: 'leftOut' }) as unknown,
    });
  });

  it('is not named any more once a later one there counts', () => {
    const good = reading('draw', 5, { waterC: beside('draw', 5, 0.5) });
    const codes = report(wild, good).conditions.gaps.map(({ fact }) => fact.code);
    expect(codes).not.toContain('pocketReadingRefused');
  });
});

describe('clarity', () => {
  const clarity = (...readings: Reading[]) => report(...readings).conditions.signals.clarityM;

  it('taken in a pocket says nothing of the main arm', () => {
    expect(clarity(reading('draw', 5, { clarityM: 0.2 }))).toEqual(clarity());
    expect(clarity(reading(undefined, 5, { clarityM: 0.2 }))?.source).toEqual({ code: 'anglerReading' });
    const main = reading(undefined, 9, { clarityM: 1.5 });
    expect(clarity(main, reading('draw', 5, { clarityM: 0.2 }))).toEqual(clarity(main));
  });
});
