/** What readers told stands in the briefing once there is enough of it, and not an outing earlier. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { loadConfig } from '../../src/config/index.ts';
import { loadRules } from '../../src/config/rules.ts';
import { addReader } from '../../src/delivery/index.ts';
import { readOuting, UNTOLD } from '../../src/outings/index.ts';
import { openRecord, putOutings, type RecordStore } from '../../src/record/index.ts';
import { storeBriefing } from '../../src/record/schedule/briefings.ts';
import { renderBriefing } from '../../src/render/index.ts';
import type { PipelineContext } from '../../src/schedule/context.ts';
import { makeBriefing } from '../../src/schedule/makeBriefing.ts';
import { addDays, DAY_MS } from '../../src/units/time/calendar.ts';
import { recordView } from '../helpers/weatherRecord.ts';

const folder = mkdtempSync(join(tmpdir(), 'outings-'));
/** 05:15 CST. */
const NOW = Date.parse('2026-03-06T11:15:00Z');
const ENOUGH_MS = NOW - DAY_MS;
let record: RecordStore;
let ctx: PipelineContext;

/** Every other day where the plan said, and twice as many fish there; a reader a day. */
async function tell(from: number, to: number, toldMs: number, readers: readonly string[]): Promise<void> {
  const [lake] = ctx.config.lakes;
  if (lake === undefined) throw new Error('no lake');
  const entries = Array.from({ length: to - from }, (_, i) => {
    const n = from + i;
    const followed = n % 2 === 0;
    const read = readOuting(
      {
        ...UNTOLD,
        date: addDays('2026-01-10', n),
        hours: '4',
        fish: followed ? '4' : '2',
        places: [followed ? 'bluff' : 'dock'],
        shared: true,
      },
      { lake, readerId: readers[n % readers.length] ?? '', nowMs: toldMs },
    );
    if (!('outing' in read)) throw new Error('no outing');
    return read;
  });
  await putOutings(record, entries, toldMs);
}

beforeAll(async () => {
  const path = join(folder, 'thawline.yaml');
  writeFileSync(
    path,
    `record: ${join(folder, 'record.sqlite')}\nlakes:\n  - { id: tarn, name: Tarn Water, position: { lat: 35.9, lon: -86.4 }, zone: America/Chicago, waterBody: highland-reservoir, meanDepth: 12 m, area: 25 km2, weather: [open-meteo] }\n`,
  );
  const config = await loadConfig(path);
  record = await openRecord(config.recordPath);
  ctx = { config, record, rules: loadRules(), env: {} };
  const asOf = new Date(NOW).toISOString();
  await record.putObservations(recordView({ asOf, pastDays: 60 }).observations);
  for (let n = 0; n < 40; n++)
    await storeBriefing(
      record,
      { lakeId: 'tarn', localDate: addDays('2026-01-10', n), edition: 'morning' },
      {
        issuedMs: Date.parse(`${addDays('2026-01-10', n)}T11:15:00Z`),
        documentJson: JSON.stringify({ positions: [{ place: 'bluff' }, { place: 'dock' }], plan: null }),
        renderings: [],
      },
    );
  const readers = await Promise.all(
    ['a', 'b', 'c', 'd', 'e'].map((name) =>
      addReader(record, `${name}@example.org`, { lakes: ['tarn'] }, { knownLakes: ['tarn'], nowMs: 0 }),
    ),
  );
  const ids = readers.map(({ id }) => id);
  await tell(0, 29, ENOUGH_MS - 1, ids);
  await tell(29, 40, ENOUGH_MS, ids);
});
afterAll(async () => {
  await record.close();
  rmSync(folder, { recursive: true, force: true });
});

const textAt = async (asOfMs: number): Promise<string> => {
  const { document } = await makeBriefing(ctx, 'tarn', { asOfMs, offline: true });
  return (await renderBriefing(document, { units: 'us', form: 'full' })).text.replace(/\s+/g, ' ');
};

describe('the evidence of a briefing', () => {
  it('sets outings with the plan beside those elsewhere, with n, interval and caution', async () => {
    const text = await textAt(NOW);
    expect(text).toMatch(
      /What 5 readers told of 40 outings: where the plan said (0\.9|1\.0)\d? fish an hour \(8 in 10: 0\.\d+ to 1\.\d; 20\); elsewhere 0\.5\d fish an hour/,
    );
    expect(text).toContain('Catches mislead');
  });

  it('says nothing while there are too few, also when looked back at', async () => {
    expect(await textAt(ENOUGH_MS - 1)).not.toContain('readers told');
  });

  it('carries the same as facts', async () => {
    const { document } = await makeBriefing(ctx, 'tarn', { asOfMs: NOW, offline: true });
    expect(document.outings).toMatchObject({ n: 40, readers: 5, followed: { n: 20 }, elsewhere: { n: 20 } });
  });
});
