/** From a real record and its outings to a patch of the rules that somebody may paste, and that nothing applies by itself. */
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { chance, countOf } from '../../bench/outing-sim.ts';
import { addLearnCommand } from '../../src/cli/learn.ts';
import { loadConfig, type LakeConfig } from '../../src/config/index.ts';
import { loadRules } from '../../src/config/rules.ts';
import { tuneRules } from '../../src/config/tune.ts';
import { addReader } from '../../src/delivery/index.ts';
import { readOuting, UNTOLD } from '../../src/outings/index.ts';
import { openRecord, putOutings, type OutingEntry } from '../../src/record/index.ts';
import { addDays, DAY_MS } from '../../src/units/time/calendar.ts';
import { localDateAt } from '../../src/units/time/localTime.ts';
import { commandLine, type Said } from '../helpers/commandLine.ts';
import { recordView } from '../helpers/weatherRecord.ts';

const folder = mkdtempSync(join(tmpdir(), 'thawline-learn-'));
/** Mornings that the outings are spread over, each made again from the record; prime, so that every reader fishes on all of them. */
const DAYS = 13;
const OUTINGS = 80;
const NOW = Date.now();

function configOf(name: string): string {
  const path = join(folder, `${name}.yaml`);
  writeFileSync(
    path,
    `record: ${join(folder, `${name}.sqlite`)}\nlakes:\n  - { id: tarn, name: Tarn Water, position: { lat: 35.9, lon: -86.4 }, zone: America/Chicago, waterBody: highland-reservoir, meanDepth: 12 m, area: 25 km2, weather: [open-meteo] }\n`,
  );
  return path;
}

const KINDS = ['bluff', 'main_point', 'dock', 'flat', 'secondary_point'];

/** Outings by `readers` readers, spread evenly over the days; at main points there are `factor` times as many fish. */
async function fished(name: string, readers: number, factor: number): Promise<string> {
  const path = configOf(name);
  const config = await loadConfig(path);
  const [lake] = config.lakes;
  if (lake === undefined) throw new Error('no lake');
  const record = await openRecord(config.recordPath);
  const weather = recordView({ asOf: new Date(NOW).toISOString(), pastDays: DAYS + 30 });
  await record.putObservations(weather.observations);
  const ids: string[] = [];
  for (let n = 0; n < readers; n++)
    ids.push(
      (await addReader(record, `r${n}@example.org`, { lakes: ['tarn'] }, { knownLakes: ['tarn'], nowMs: 0 }))
        .id,
    );
  await putOutings(record, entriesOf(lake, ids, factor), NOW);
  await record.close();
  return path;
}

function entriesOf(lake: LakeConfig, ids: readonly string[], factor: number): OutingEntry[] {
  const next = chance(4);
  const today = localDateAt(NOW, lake.zone);
  return Array.from({ length: OUTINGS }, (_, n) => {
    const kind = KINDS[Math.floor(next() * KINDS.length)] ?? '';
    const fish = countOf(next, 3 * (kind === 'main_point' ? factor : 1));
    const read = readOuting(
      {
        ...UNTOLD,
        date: addDays(today, -1 - (n % DAYS)),
        hours: '4',
        fish: String(fish),
        places: [kind],
        shared: true,
      },
      { lake, readerId: ids[n % ids.length] ?? '', nowMs: NOW + DAY_MS },
    );
    if (!('outing' in read)) throw new Error('no outing');
    // Two of one reader and day may be at the same place.
    return { outing: { ...read.outing, id: String(n) } };
  });
}

const learn = (config: string, ...words: string[]): Promise<Said> =>
  commandLine(addLearnCommand, '--config', config, 'learn', 'tarn', ...words);

describe('thawline learn', () => {
  let strong: string;
  beforeAll(async () => {
    strong = await fished('strong', 6, 4);
  }, 120_000);

  it('proposes what outings speak for, with effect, interval, n and what would differ, and changes nothing', async () => {
    const before = readFileSync(strong, 'utf8');
    const out = join(folder, 'patch.yaml');
    expect(await learn(strong, '--out', out)).toMatchObject({ code: 0, err: '' });
    const text = readFileSync(out, 'utf8');
    expect(text).toContain('from 80 outings of 6 readers');
    expect(text).toContain('Nothing was changed.');
    expect(text).toContain('Catches mislead');
    expect(text).toMatch(
      /# base\.main_point\.\w+: x\d\.\d\d of the catch .* beside the other places \(80 %: x\d\.\d\d to x\d\.\d\d\), \d+ outings of \d readers/,
    );
    expect(text).toMatch(/Under it \d+ of the last \d+ mornings differ: danger 0, first place \d+/);
    expect(text).toContain('thawline compare tarn --from');
    const { thresholds } = parse(text) as { thresholds: Record<string, number> };
    const shipped = loadRules();
    for (const [key, value] of Object.entries(thresholds)) {
      expect(key).toMatch(/^positions\./);
      if (!key.startsWith('positions.places.main_point.')) continue;
      const phase = key.split('.')[4];
      const place = shipped.positions.places.find(({ id }) => id === 'main_point');
      const cells: Readonly<Record<string, { points: number }>> = place?.base ?? {};
      expect(value).toBeGreaterThan(cells[phase ?? '']?.points ?? NaN);
    }
    expect(Object.keys(thresholds).some((key) => key.startsWith('positions.places.main_point.'))).toBe(true);
    // It can be pasted as it is.
    expect(() => tuneRules(shipped, thresholds)).not.toThrow();
    const pasted = join(folder, 'pasted.yaml');
    writeFileSync(pasted, `${before}${text}`);
    expect((await loadConfig(pasted)).thresholds).toEqual(thresholds);
    // Nothing of it was applied.
    expect(readFileSync(strong, 'utf8')).toBe(before);
  }, 240_000);

  it('learns the same once a proposal is pasted: what is tuned is not learnt twice', async () => {
    const plain = (await learn(strong, '--no-compare')).out;
    const tuned = join(folder, 'tuned.yaml');
    writeFileSync(tuned, `${readFileSync(strong, 'utf8')}${plain}`);
    expect((await learn(tuned, '--no-compare')).out).toBe(plain);
  }, 240_000);

  it('proposes nothing where nothing differs', async () => {
    const { code, out } = await learn(await fished('even', 6, 1));
    expect(code).toBe(0);
    expect(out).toContain('No weight is clearly wrong: nothing is proposed.');
    expect(out).not.toContain('thresholds:\n');
  }, 240_000);

  it('says that there are too few, of all and of one reader', async () => {
    const few = await fished('few', 4, 4);
    expect((await learn(few)).out).toMatch(
      /Too few to learn from: 80 outings of 4 readers.* from 30 shared outings of 5 readers on/,
    );
    expect((await learn(few, '--reader', 'r0@example.org')).out).toMatch(
      /Too few to learn from: 20 outings of 1 reader /,
    );
    expect((await learn(few, '--reader', 'nobody@example.org')).code).toBe(2);
  }, 240_000);
});
