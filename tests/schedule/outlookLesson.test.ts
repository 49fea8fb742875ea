/** Forty mornings issued into a real SQLite file that looked ahead too warm, a reading a day, and what the next one makes of it. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { Briefing } from '../../src/briefing/index.ts';
import { loadConfig } from '../../src/config/index.ts';
import { loadRules } from '../../src/config/rules.ts';
import { storeBriefing } from '../../src/record/schedule/briefings.ts';
import { openRecord, type RecordStore } from '../../src/record/index.ts';
import { renderBriefing } from '../../src/render/index.ts';
import type { PipelineContext } from '../../src/schedule/context.ts';
import { briefingView, makeBriefing } from '../../src/schedule/makeBriefing.ts';
import { addDays, DAY_MS } from '../../src/units/time/calendar.ts';
import { recordView } from '../helpers/weatherRecord.ts';

const HOUR = 3_600_000;
const MORNINGS = 40;
/** 05:15 CDT. */
const NEXT_MS = Date.parse('2026-05-20T10:15:00Z');
const morning = (index: number): number => NEXT_MS - (MORNINGS - index) * DAY_MS;
const dateOf = (index: number): string => new Date(morning(index)).toISOString().slice(0, 10);

const folder = mkdtempSync(join(tmpdir(), 'outlook-'));
let record: RecordStore;
let ctx: PipelineContext;

const readC = (index: number): number => 15 + 0.1 * index;
/** Each issue said this much too warm of every day ahead. */
const TOO_WARM_C = 1;

/** The parts of a document that are looked back on. */
function issued(index: number, ...days: { ahead: number; waterC: number; waterRawC?: number }[]): string {
  const date = dateOf(index);
  return JSON.stringify({
    status: 'scheduled',
    demo: false,
    preview: false,
    date,
    series: {
      days: days.map(({ ahead, waterC, ...raw }) => ({
        date: addDays(date, ahead),
        forecast: true,
        waterC,
        waterLowC: waterC - 1.5,
        waterHighC: waterC + 1.5,
        ...(raw.waterRawC === undefined ? {} : { ...raw, waterRawHalfC: 1.5 }),
      })),
    },
  });
}
const keyOf = (index: number, edition: 'morning' | 'amendment' = 'morning') =>
  ({ lakeId: 'tarn', localDate: dateOf(index), edition }) as const;
const store = (index: number, documentJson: string, edition?: 'amendment'): Promise<void> =>
  storeBriefing(record, keyOf(index, edition), { issuedMs: morning(index), documentJson, renderings: [] });
const ahead = [1, 2, 3, 4, 5, 6];

beforeAll(async () => {
  const config = join(folder, 'thawline.yaml');
  writeFileSync(
    config,
    `record: ${join(folder, 'record.sqlite')}
lakes:
  - id: tarn
    name: Tarn Water
    position: { lat: 35.9, lon: -86.4 }
    zone: America/Chicago
    waterBody: highland-reservoir
    meanDepth: 12 m
    area: 25 km2
    weather: [open-meteo]
`,
  );
  const loaded = await loadConfig(config);
  record = await openRecord(loaded.recordPath);
  ctx = { config: loaded, record, rules: loadRules(), env: {} };
  const { observations } = recordView({ asOf: new Date(NEXT_MS).toISOString(), pastDays: 120, aheadDays: 8 });
  await record.putObservations(observations);
  for (let index = 0; index < MORNINGS; index += 1) {
    await store(
      index,
      issued(index, ...ahead.map((lead) => ({ ahead: lead, waterC: readC(index + lead) + TOO_WARM_C }))),
    );
    // What goes out later in a day knew more: it teaches nothing.
    await store(index, issued(index, { ahead: 1, waterC: 40 }), 'amendment');
    const atMs = morning(index) + 6 * HOUR;
    await record.putReading({
      id: `r${index}`,
      lake: 'tarn',
      atMs,
      waterC: readC(index),
      depthM: 1,
      sdC: 0.1,
      where: 'dock',
    });
  }
}, 60_000);
afterAll(async () => {
  await record.close();
  rmSync(folder, { recursive: true, force: true });
});

const make = async (asOfMs: number): Promise<Briefing> =>
  (await makeBriefing(ctx, 'tarn', { asOfMs, offline: true })).document;
const daysAhead = ({ series, date }: Briefing) => series.days.filter((day) => day.date > date);

it('a lake takes off what its own outlooks missed, keeps the model’s figure, and says so with the number of mornings', async () => {
  const document = await make(NEXT_MS);
  const [near, far] = document.outlook!;
  // The last issue could not be compared yet: its first day ahead is today.
  expect(near).toMatchObject({ fromDays: 1, toDays: 3, issues: MORNINGS - 1, learned: true });
  // 39 days seen against 60 that count for what is usual.
  expect(near!.biasC).toBeCloseTo((39 / 99) * TOO_WARM_C, 6);
  expect(far).toMatchObject({ fromDays: 4, toDays: 7, learned: true });
  const days = daysAhead(document);
  expect(days.length).toBeGreaterThanOrEqual(6);
  for (const day of days) expect(day.waterC).toBeLessThan(day.waterRawC!);
  expect(days[1]!.waterRawC! - days[1]!.waterC!).toBeCloseTo(near!.biasC, 6);
  const { text } = await renderBriefing(document, { units: 'metric', form: 'full', detail: 'web' });
  expect(text.replace(/\s+/g, ' ')).toContain(
    'Water in the days ahead: corrected by what 39 past briefings of this lake missed. 1 to 3 days ahead lowered by 0.4 °C',
  );
});

it('before thirty could be compared the figures are the model’s, and the page counts', async () => {
  const document = await make(morning(20));
  expect(document.outlook?.map(({ issues, learned }) => [issues, learned])).toEqual([
    [19, false],
    [16, false],
  ]);
  for (const day of daysAhead(document)) expect(day).not.toHaveProperty('waterRawC');
  const { text } = await renderBriefing(document, { units: 'us', form: 'full', detail: 'web' });
  expect(text.replace(/\s+/g, ' ')).toContain('19 of the 30 past briefings that it takes');
});

it('what is issued and read later changes nothing of what an earlier morning had learned', async () => {
  const before = await make(NEXT_MS);
  await store(MORNINGS + 1, issued(MORNINGS + 1, { ahead: 1, waterC: 2 }));
  await record.putReading({
    id: 'later',
    lake: 'tarn',
    atMs: NEXT_MS + HOUR,
    waterC: 30,
    depthM: 1,
    sdC: 0.1,
    where: 'dock',
  });
  expect(await make(NEXT_MS)).toEqual(before);
});

it('learning never feeds on itself: a corrected issue is looked back on as the model had it', async () => {
  await store(MORNINGS - 1, issued(MORNINGS - 1, { ahead: 1, waterC: 12, waterRawC: 21 }));
  const lake = ctx.config.lakes[0]!;
  const { outlooks } = await briefingView(record, lake, NEXT_MS);
  expect(outlooks!.filter(({ issued: date }) => date === dateOf(MORNINGS - 1))).toEqual([
    { issued: dateOf(MORNINGS - 1), leadDays: 1, waterC: 21, halfC: 1.5 },
  ]);
});

it('what was no promise to a reader teaches nothing', async () => {
  const lake = ctx.config.lakes[0]!;
  const last = issued(MORNINGS - 1, { ahead: 1, waterC: 12 });
  for (const spoilt of [
    last.replace('"demo":false', '"demo":true'),
    last.replace('"preview":false', '"preview":true'),
    last.replace('scheduled', 'nil'),
    '{}',
    'not a document',
  ]) {
    await store(MORNINGS - 1, spoilt);
    const { outlooks } = await briefingView(record, lake, NEXT_MS);
    expect(outlooks!.some(({ issued: date }) => date === dateOf(MORNINGS - 1))).toBe(false);
  }
});
