/** A dozen mornings issued into a real SQLite file, readings taken after them, and what the next briefing says of it. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Command } from 'commander';
import { afterAll, beforeAll, expect, it, vi } from 'vitest';
import type { Briefing } from '../../src/briefing/index.ts';
import { addRecordCommands } from '../../src/cli/record.ts';
import { loadConfig } from '../../src/config/index.ts';
import { loadRules } from '../../src/config/rules.ts';
import { listBriefings, storeBriefing } from '../../src/record/schedule/briefings.ts';
import { openRecord, type RecordStore } from '../../src/record/index.ts';
import { renderBriefing } from '../../src/render/index.ts';
import type { PipelineContext } from '../../src/schedule/context.ts';
import { makeBriefing } from '../../src/schedule/makeBriefing.ts';
import type { Verification } from '../../src/verification/index.ts';
import { observation, recordView } from '../helpers/weatherRecord.ts';

const HOUR = 3_600_000;
const DAY = 24 * HOUR;
const MORNINGS = 12;
/** 05:15 CST of the first issue. */
const FIRST_MS = Date.parse('2026-02-10T11:15:00Z');
const morning = (index: number): number => FIRST_MS + index * DAY;
const NEXT_MS = morning(MORNINGS);

const folder = mkdtempSync(join(tmpdir(), 'verification-'));
let record: RecordStore;
let ctx: PipelineContext;
const config = join(folder, 'thawline.yaml');

/** What the thermometer at the ramp shows in the afternoon of each day: sometimes near, sometimes far off. */
const readC = (index: number): number => 7 + 0.15 * index + (index % 4 === 0 ? 3 : 0);

beforeAll(async () => {
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
    weather: [open-meteo, nws]
`,
  );
  const loaded = await loadConfig(config);
  record = await openRecord(loaded.recordPath);
  ctx = { config: loaded, record, rules: loadRules(), env: {} };
  await record.putReading(reading(-1));
  for (let index = 0; index < MORNINGS; index += 1) {
    const asOf = new Date(morning(index)).toISOString();
    const weather = { wind: 3 + (index % 3) };
    const past = recordView({ asOf, pastDays: index === 0 ? 60 : 1, weather: () => weather });
    await record.putObservations(past.observations);
    await issue(index);
    await record.putReading(reading(index));
  }
}, 60_000);
afterAll(async () => {
  await record.close();
  rmSync(folder, { recursive: true, force: true });
});

/** At 14:00 of the day. */
function reading(index: number): Parameters<RecordStore['putReading']>[0] {
  const atMs = morning(index) + 8.75 * HOUR;
  return { id: `r${index}`, lake: 'tarn', atMs, waterC: readC(index), depthM: 1, sdC: 0.3, where: 'ramp' };
}

const make = (asOfMs: number) => makeBriefing(ctx, 'tarn', { asOfMs, offline: true });

async function issue(index: number): Promise<void> {
  const issuedMs = morning(index);
  const { document } = await make(issuedMs);
  const key = { lakeId: 'tarn', localDate: document.date, edition: 'morning' } as const;
  await storeBriefing(record, key, { issuedMs, documentJson: JSON.stringify(document), renderings: [] });
}

async function text(asOfMs: number, units: 'us' | 'metric' = 'metric'): Promise<string> {
  const { text: page } = await renderBriefing((await make(asOfMs)).document, {
    units,
    form: 'full',
    detail: 'web',
  });
  return page.replace(/\s+/g, ' ');
}

/** Plain sums over what was stored. */
async function byHand(): Promise<{ inside: number; off: number; held: number }> {
  const kept = (await listBriefings(record, 'tarn', 50)).reverse().slice(0, MORNINGS);
  let [inside, off, held] = [0, 0, 0];
  kept.forEach(({ documentJson }, index) => {
    const { conditions } = JSON.parse(documentJson) as Briefing;
    const said = conditions.find(({ id }) => id === 'waterC')?.now;
    const came = readC(index);
    if (said?.low === undefined || said.high === undefined) throw new Error('no estimate was issued');
    if (came >= said.low && came <= said.high) inside += 1;
    off += Math.abs(said.value - came) / MORNINGS;
    held += Math.abs(readC(index - 1) - came) / MORNINGS;
  });
  return { inside, off, held };
}

it('the next briefing says how the dozen before it have done', async () => {
  const { inside, off, held } = await byHand();
  const page = await text(NEXT_MS);
  expect(page).toContain('How we have done');
  expect(page).toContain(
    `Water: ${inside} of the last 12 days compared within the stated range (8 in 10 intended).`,
  );
  expect(page).toContain(`Average error ${off.toFixed(1)} °C`);
  expect(page).toContain(`Repeating the last reading: ${held.toFixed(1)} °C.`);
  expect(await text(NEXT_MS, 'us')).toContain(`Average error ${(off * 1.8).toFixed(1)} °F`);
  // A model's past is no truth: without a station nothing is said of wind and air.
  expect(page).not.toMatch(/(Wind|Air), fishing hours:/);
});

it('the briefings before there were ten outcomes said nothing', async () => {
  const kept = (await listBriefings(record, 'tarn', 50)).reverse();
  const told = kept.map(({ documentJson }) => (JSON.parse(documentJson) as Briefing).scores.length > 0);
  expect(told).toEqual([...Array<boolean>(10).fill(false), true, true]);
});

it('what comes later changes nothing of a briefing made again as of its morning', async () => {
  const before = await text(NEXT_MS);
  await issue(MORNINGS);
  await issue(MORNINGS + 1);
  await record.putReading({ ...reading(MORNINGS), waterC: 25 });
  await record.putObservations([
    observation('wind_speed', NEXT_MS + HOUR, 9, { source: 'nws', station: 'KXYZ', lake: 'tarn' }),
  ]);
  expect(await text(NEXT_MS)).toBe(before);
  expect(await text(morning(MORNINGS + 2))).toContain('of the last 13 days compared');
});

it('the command line prints the same with counts and the interval', async () => {
  const { inside, off, held } = await byHand();
  const shown = await run('--as-of', new Date(NEXT_MS).toISOString());
  expect(shown).toContain('Tarn Water: 12 issues beside what was measured after them.');
  expect(shown).toContain('water, main lake: 12 outcomes');
  expect(shown).toContain(`mean absolute error ${off.toFixed(1)} °C`);
  expect(shown).toContain(`last reading held: ${held.toFixed(1)} °C`);
  expect(shown).toMatch(
    new RegExp(`inside the stated 80 % interval ${inside} of 12 \\(90 % interval \\d+ to \\d+ %\\)`),
  );
  const json = JSON.parse(await run('--as-of', new Date(NEXT_MS).toISOString(), '--json')) as Verification;
  // The last issues' third day has not come yet.
  expect(json.scores.map(({ item, n }) => [item, n])).toEqual([
    ['water', 12],
    ['waterAhead', 9],
  ]);
  expect(json.scores[0]).toMatchObject({ item: 'water', n: 12, inside: { hits: inside, of: 12 } });
  expect(json.scores[0]?.meanAbsError).toBeCloseTo(off, 9);
  const early = await run('--as-of', new Date(morning(4)).toISOString());
  expect(early).toContain('water, main lake: 4 outcomes; not in the briefing below 10');
  const none = await run('--as-of', new Date(morning(0)).toISOString());
  expect(none).toMatch(/^Tarn Water: no issue to score yet\.$/m);
  expect(none).toContain('measured here: nothing yet');
  expect(shown).toContain('measured here: outcomes of water, main lake 12');
  expect(shown).toMatch(/^ {2}measured elsewhere: .*\(\d+ rules, 4966 sampled sites\)/m);
  for (const kind of ['published', 'practice', 'ours'])
    expect(shown).toMatch(new RegExp(`^  ${kind}: .*\\d`, 'm'));
  expect(json).toHaveProperty('evidence.places.practice');
});

async function run(...words: string[]): Promise<string> {
  const printed: string[] = [];
  const log = vi.spyOn(console, 'log').mockImplementation((line: string) => void printed.push(line));
  try {
    const program = new Command().exitOverride().option('--config <file>');
    addRecordCommands(program);
    await program.parseAsync(['--config', config, 'record', 'score', 'tarn', ...words], { from: 'user' });
  } finally {
    log.mockRestore();
  }
  return printed.join('\n');
}
