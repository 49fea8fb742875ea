/** Seasons made again: the past is fetched once and whole, and every morning knows only what it could have known. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { compareSeasons } from '../../src/schedule/replay/seasonCompare.ts';
import { compareCsv, seasonCsv } from '../../src/cli/seasonCsv.ts';
import { seasonDay, type SeasonDay } from '../../src/schedule/replay/seasonDay.ts';
import { seasonPage } from '../../src/cli/seasonPage.ts';
import { loadRules, type RuleBook } from '../../src/config/rules.ts';
import { openRecord, type RecordStore } from '../../src/record/index.ts';
import { renderBriefing } from '../../src/render/index.ts';
import type { PipelineContext } from '../../src/schedule/context.ts';
import { backFill, checkSeason, piecesOf } from '../../src/schedule/replay/backFill.ts';
import { replaySeason, rulesWith, type ReplayedMorning } from '../../src/schedule/replay/season.ts';
import { clientFor } from '../../src/schedule/refresh.ts';
import { config, lake as plainLake } from '../delivery/kit.ts';
import { startSeasonServer, type SeasonServer } from './seasonServer.ts';

const NOW = Date.parse('2026-11-20T12:00:00Z');
const SEASON = { from: '2025-03-10', to: '2025-03-14' };
const lake = plainLake();
const rules = loadRules();
let server: SeasonServer;
let folder: string;
let record: RecordStore;
let ctx: PipelineContext;

async function open(name: string): Promise<void> {
  const recordPath = join(folder, name);
  record = await openRecord(recordPath);
  const settings = config({ recordPath });
  const services = { ...settings.services, baseUrls: { 'open-meteo-archive': server.url } };
  const whole = { ...settings, services };
  ctx = { config: whole, record, rules, env: {}, client: clientFor(whole, record) };
}
const fill = () => {
  if (ctx.client === undefined) throw new Error('no client');
  const { services } = ctx.config;
  return backFill(ctx, lake, SEASON, {
    client: ctx.client,
    services,
    nowMs: NOW,
    pastDays: 0,
    readFile: () => Promise.reject(new Error('no file')),
  });
};
async function replayed(books: readonly RuleBook[] = [rules], season = SEASON): Promise<ReplayedMorning[]> {
  const mornings: ReplayedMorning[] = [];
  for await (const morning of replaySeason(ctx, lake, season, books)) mornings.push(morning);
  return mornings;
}
const days = (mornings: readonly ReplayedMorning[], side = 0): SeasonDay[] =>
  mornings.flatMap((morning) => {
    const document = morning.documents[side];
    return document === undefined ? [] : [seasonDay(morning, document)];
  });

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'replay-'));
  server = await startSeasonServer();
});
afterAll(async () => {
  await server.close();
  rmSync(folder, { recursive: true });
});
beforeEach(() => {
  server.asked.length = 0;
  server.share = 1;
  server.hollow = '';
});

describe('the past of a season', () => {
  beforeEach(() => open(`fill-${Math.random()}.sqlite`));
  afterEach(async () => {
    await ctx.client?.close();
    await record.close();
  });

  it('is asked for once, in pieces that seasons share', async () => {
    const { fetched, pieces } = await fill();
    expect(fetched).toBe(pieces);
    expect(new Set(server.asked).size).toBe(pieces);
    server.asked.length = 0;
    expect(await fill()).toMatchObject({ fetched: 0, pieces });
    expect(server.asked).toEqual([]);
  });

  it.each([
    ['precipitation', 'rain'],
    ['wind_speed_10m', 'wind_speed'],
    ['shortwave_radiation', 'shortwave'],
  ])('with a hole in %s alone is not taken as whole', async (column, variable) => {
    server.hollow = column;
    await expect(fill()).rejects.toMatchObject({
      code: 'service',
      message: expect.stringMatching(new RegExp(`\\(${variable}\\): nothing of them was stored`)) as string,
    });
    server.hollow = '';
    expect((await fill()).fetched).toBe(piecesOf(SEASON, NOW).length);
  });

  it('that a service cuts off half way is no hole taken as data, and goes on from there', async () => {
    const pieces = piecesOf(SEASON, NOW);
    server.share = 0.5;
    await expect(fill()).rejects.toMatchObject({
      code: 'service',
      retryable: true,
      message: expect.stringMatching(
        /gave \d+ of 2208 hours.*nothing of them was stored.*goes on from there/,
      ),
    });
    expect(await record.span(lake.id)).toBeNull();
    server.share = 1;
    server.asked.length = 0;
    expect((await fill()).fetched).toBe(pieces.length);
    const span = await record.span(lake.id, { variable: 'air_temp' });
    expect(new Date(span?.firstMs ?? 0).toISOString().slice(0, 10)).toBe(pieces[0]?.from);
  });

  it('counts as known since it was fetched: only a replay uses it', async () => {
    await fill();
    const asOf = Date.parse('2025-03-12T11:00:00Z');
    expect((await record.view(lake.id, asOf)).observations).toEqual([]);
    expect((await record.view(lake.id, asOf, { archive: true })).observations.length).toBeGreaterThan(1000);
  });
});

describe('a span that cannot be replayed is refused in one sentence', () => {
  it.each([
    [{ from: '1940-06-01', to: '1940-07-01' }, /archive begins on 1940-01-01/],
    [{ from: '2026-03-02', to: '2026-03-01' }, /lies after/],
    [{ from: '2026-11-01', to: '2026-12-24' }, /has not come yet/],
    [{ from: 'March', to: '2026-03-01' }, /--from is a date/],
    [{ from: '2025-02-30', to: '2026-03-01' }, /--from is a date/],
  ])('%j', (season, message) => {
    expect(() => checkSeason(season, lake, NOW)).toThrow(message);
  });

  it('a lake without the weather that has an archive', async () => {
    await open('nws.sqlite');
    const elsewhere = { ...lake, weather: ['nws' as const] };
    const { services } = ctx.config;
    if (ctx.client === undefined) throw new Error('no client');
    const deps = {
      client: ctx.client,
      services,
      nowMs: NOW,
      pastDays: 0,
      readFile: () => Promise.resolve(''),
    };
    await expect(backFill(ctx, elsewhere, SEASON, deps)).rejects.toThrow(/only open-meteo keeps an archive/);
    await ctx.client.close();
    await record.close();
  });
});

describe('the mornings of a season', { timeout: 240_000 }, () => {
  let mornings: ReplayedMorning[] = [];
  beforeAll(async () => {
    await open('season.sqlite');
    await fill();
  });
  afterAll(async () => {
    await ctx.client?.close();
    await record.close();
  });

  it('are the same however often they are made, and say what stood in for a forecast', async () => {
    // Two mornings are made twice: every one costs about a second of a busy machine.
    const once = await replayed();
    expect(once.map(({ date }) => date)).toEqual([
      '2025-03-10',
      '2025-03-11',
      '2025-03-12',
      '2025-03-13',
      '2025-03-14',
    ]);
    expect(once.every(({ forecast }) => forecast === 'archive')).toBe(true);
    expect(days(once).every((day) => day.first !== '' && day.waterC !== null)).toBe(true);
    const two = { from: '2025-03-10', to: '2025-03-11' };
    expect(await replayed([rules], two)).toEqual(once.slice(0, 2));
    mornings = once;
  });

  it('print in words, and never by the keys of their rules', async () => {
    const ids = Object.keys(rules.texts['en'] ?? {});
    expect(ids.length).toBeGreaterThan(100);
    for (const { documents } of mornings.slice(-1))
      for (const document of documents) {
        const { text } = await renderBriefing(document, { units: 'us', form: 'full', pictures: false });
        expect(ids.filter((id) => text.includes(id))).toEqual([]);
        expect(text).toMatch(/cold water/i);
        // Without the words it came with it is refused, not printed.
        const wordless = { ...document, rulesWords: {} };
        const print = renderBriefing(wordless, { units: 'us', form: 'full', pictures: false });
        await expect(print).rejects.toThrow(/without the words of its rules/);
      }
  });

  it('are to the letter those that are made one at a time, each from a record read for it alone', async () => {
    const facts = ({ documents }: ReplayedMorning): string => {
      const [document] = documents;
      // What changed is told against the morning before, which a morning alone does not have.
      return JSON.stringify({ ...document, whatChanged: null });
    };
    for (const morning of mornings.slice(1, 4)) {
      const [alone] = await replayed([rules], { from: morning.date, to: morning.date });
      expect(alone === undefined ? '' : facts(alone)).toBe(facts(morning));
    }
    const once = mornings;
    const page = seasonPage('Lake <Ossarly>', days(once), []);
    expect(page).toContain('5 mornings without a kept forecast');
    expect(page).toContain('Lake &lt;Ossarly&gt;');
    expect(seasonCsv(days(once)).split('\r\n')).toHaveLength(7);
  });

  it('know a reading from when it was given, and a forecast from when it was out', async () => {
    const before = days(mornings);
    const at = Date.parse('2025-03-10T20:00:00Z');
    const reading = { id: 'r', lake: lake.id, atMs: at, waterC: 6, depthM: 0.3, sdC: 0.2, where: 'ramp' };
    // Measured on the tenth, typed in on the twelfth, after that morning's issue.
    await record.putReading(reading, Date.parse('2025-03-12T20:00:00Z'));
    const issuedMs = Date.parse('2025-03-13T06:00:00Z');
    await record.putObservations(
      Array.from({ length: 96 }, (_, h) => ({
        lake: lake.id,
        variable: 'air_temp' as const,
        source: 'open-meteo',
        station: '',
        kind: 'forecast' as const,
        atMs: issuedMs + h * 3_600_000,
        periodS: 0,
        value: 14,
        issuedMs,
      })),
      issuedMs + 3_600_000,
    );
    const after = await replayed();
    const water = (list: readonly SeasonDay[]) => list.map(({ waterC }) => waterC);
    expect(water(days(after)).slice(0, 3)).toEqual(water(before).slice(0, 3));
    expect(water(days(after))[3]).not.toBe(water(before)[3]);
    expect(after.map(({ forecast }) => forecast)).toEqual(['archive', 'archive', 'archive', 'kept', 'kept']);
  });

  it('are compared under two rule books, with what moved them', async () => {
    const key = 'safety.hazards.cold-water.classes.near freezing.at';
    const colder = rulesWith(rules, new Map([[key, 9.9]]));
    const mornings = await replayed([rules, colder], { from: '2025-03-10', to: '2025-03-11' });
    expect(compareSeasons(days(mornings), days(mornings))).toEqual([]);
    const differences = compareSeasons(days(mornings), days(mornings, 1));
    const dangers = differences.flatMap(({ items }) => items.filter(({ what }) => what === 'danger'));
    expect(dangers.length).toBeGreaterThan(0);
    expect(dangers.every(({ movedBy }) => movedBy.includes('cold-water'))).toBe(true);
    expect(compareCsv(differences)).toContain(',danger,');
    expect(() => rulesWith(rules, new Map([['safety.nonsense', 1]]))).toThrow(/no number/);
  });
});
