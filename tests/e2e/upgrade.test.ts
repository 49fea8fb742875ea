/** What the version before left behind works unchanged: its record, its rules folder, its configuration. */
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { gunzipSync } from 'node:zlib';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { rulesOf } from '../../src/cli/rulesOf.ts';
import { loadConfig, type Config } from '../../src/config/index.ts';
import { loadRules } from '../../src/config/rules.ts';
import { sortedThresholds, tunableNumbers } from '../../src/config/tune.ts';
import { drain, listReaders, syncConfigReaders, type Reader } from '../../src/delivery/index.ts';
import { openRecord, type RecordStore } from '../../src/record/index.ts';
import { listBriefings } from '../../src/record/schedule/briefings.ts';
import { renderBriefing } from '../../src/render/index.ts';
import { issueEdition } from '../../src/schedule/issue.ts';
import { makeBriefing, type BriefingResult } from '../../src/schedule/makeBriefing.ts';
import { madeFrom } from '../../src/schedule/pipeline.ts';
import { DAY_MS, HOUR_MS } from '../../src/units/time/calendar.ts';
import { readArchived, toPage, wordsFor } from '../../src/words/index.ts';
import { silent } from '../delivery/kit.ts';
import { counting, deps, pipeline } from '../schedule/kit.ts';

const old = (name: string): string =>
  fileURLToPath(new URL(`../../fixtures/upgrade/${name}`, import.meta.url));
/** The hour of the old issue: 05:15 on Thursday 2026-03-05 in America/Chicago. */
const ISSUED_MS = Date.UTC(2026, 2, 5, 11, 15);

describe('a record of the version before', () => {
  const folder = mkdtempSync(join(tmpdir(), 'thawline-upgrade-'));
  const path = join(folder, 'record.sqlite');
  const clock = { ms: ISSUED_MS + 60_000 };
  const transport = counting(clock);
  let record: RecordStore;
  let config: Config;
  let next: BriefingResult;

  beforeAll(async () => {
    writeFileSync(path, gunzipSync(readFileSync(old('record.sqlite.gz'))));
    config = await loadConfig(old('thawline.yaml'));
    record = await openRecord(path);
    const rules = rulesOf(config, old('rules'));
    const [lake] = config.lakes;
    next = await makeBriefing({ config, record, rules, env: {} }, lake?.id ?? '', {
      asOfMs: ISSUED_MS + DAY_MS,
      offline: true,
    });
  });
  afterAll(async () => {
    await record.close();
    rmSync(folder, { recursive: true });
  });

  const kit = () => deps(record, clock, { transport, log: silent }, config);
  const send = () => drain(record, { ...kit(), mail: { ...config.mail, ratePerSecond: 0 } });

  it('is brought to today’s schema, and a copy of the old file is kept', () => {
    expect(
      readdirSync(folder).filter((name) => name !== 'record.sqlite' && !/-(wal|shm)$/.test(name)),
    ).toEqual([expect.stringMatching(/record\.sqlite/)]);
  });

  it('keeps its readers, what they chose, and that one left', async () => {
    const readers: Reader[] = [];
    for await (const reader of listReaders(record)) readers.push(reader);
    expect(readers.map(({ address, state }) => `${address} ${state}`).sort()).toEqual([
      'left@example.org left',
      'metric@example.org active',
      'operator@example.org active',
    ]);
    expect(readers.find(({ address }) => address.startsWith('metric'))).toMatchObject({
      units: 'metric',
      form: 'short',
      days: [1, 2, 3, 4, 5],
      earliestHour: 7,
      amendments: false,
      language: null,
      fishing: null,
    });
  });

  it('sends the mails that were waiting, each at its hour', async () => {
    await send();
    expect(transport.sent.map(({ to }) => to)).toEqual(['operator@example.org']);
    clock.ms += 2 * HOUR_MS;
    await send();
    expect(transport.sent.map(({ to }) => to)).toEqual(['operator@example.org', 'metric@example.org']);
    expect(transport.sent[0]?.subject).toContain('Quarry Bend Lake');
  });

  it('shows its old issue still, in its own sentences', async () => {
    const [kept] = await listBriefings(record, 'quarry-bend', 1);
    const document = readArchived(kept?.documentJson ?? '');
    expect(document.schema).toBe('thawline-briefing/1');
    const { text, html } = await renderBriefing(document, { units: 'us', form: 'full', detail: 'web' });
    expect(text).toContain('Mill Hollow');
    expect(html).toContain('Mill Hollow');
  });

  it('is advised on by its own rules folder, and compared with its own last issue', () => {
    const { document } = next;
    if (document.status === 'nil') throw new Error('nothing was issued');
    expect(document.positions).toHaveLength(3);
    expect(document.plan?.blocks.length).toBeGreaterThan(0);
    expect(document.whatChanged.since?.atMs).toBe(ISSUED_MS);
    const page = toPage(document, wordsFor('en'));
    const sentences = page.positions.flatMap(({ because, name }) => [name, ...because]);
    for (const sentence of sentences) expect(sentence).toMatch(/^[^.{}]*[a-z]/i);
    // A rule without words would show its key.
    expect(JSON.stringify(page)).not.toMatch(/"(safety|place|phase|base)\.[a-z_.-]+"/);
  });

  it('issues and sends the next morning, with the reader of the file', async () => {
    const [lake] = config.lakes;
    if (lake === undefined) throw new Error('no lake');
    clock.ms = ISSUED_MS + DAY_MS;
    await syncConfigReaders(record, config, clock.ms);
    const made = pipeline({ makeBriefing: () => Promise.resolve(madeFrom(next)) });
    const order = { lake, localDate: next.document.date, edition: 'morning', dueMs: clock.ms } as const;
    const issued = await issueEdition(
      { ...kit(), pipeline: made },
      { ...order, deadlineMs: clock.ms + 3 * HOUR_MS },
    );
    expect(issued).toEqual({ outcome: 'issued', readers: 3 });
    await send();
    clock.ms += 2 * HOUR_MS;
    await send();
    expect(
      transport.sent
        .slice(2)
        .map(({ to }) => to)
        .sort(),
    ).toEqual(['file@example.org', 'metric@example.org', 'operator@example.org']);
  });
});

describe('numbers that a configuration tuned for the version before', () => {
  it('count where today’s rules have them, and are named and left out where not', async () => {
    const { thresholds } = await loadConfig(old('thawline.yaml'));
    const { kept, gone } = sortedThresholds(loadRules(), thresholds);
    expect(Object.keys(kept)).toEqual(['safety.hazards.cold-water.classes.danger.at']);
    expect([...gone].sort()).toEqual([
      'lures.settings.castDepthShare',
      'safety.hazards.cold-water.classes.mild.at',
    ]);
  });

  /** Taken away on purpose since: a class that was told apart, fall rates (computed from drag now), rows of a curve by their place. */
  const TAKEN_AWAY =
    /^safety\.hazards\.cold-water\.classes\.mild\.(at|level)$|^lures\.classes\.[^.]+\.(fallMs|(speed|rest)\.\d+\.[01])$/;

  it('are all still there under their key or an alias of it', () => {
    const before = Object.fromEntries(tunableNumbers(loadRules(old('rules'))));
    const { kept, gone } = sortedThresholds(loadRules(), before);
    expect(Object.keys(kept).length).toBeGreaterThan(2000);
    expect(gone.filter((key) => !TAKEN_AWAY.test(key))).toEqual([]);
  });
});

it('an issue that kept its advice in sentences prints each of them as it was', () => {
  const document = readArchived(readFileSync(old('briefing-in-sentences.json'), 'utf8'));
  if (document.schema !== 'thawline-briefing/2' || document.status === 'nil') throw new Error('not issued');
  const { positions, plan, safety, casts, tendency } = document;
  const told: string[] = [];
  const collect = (value: unknown): void => {
    if (typeof value !== 'object' || value === null) return;
    if ('code' in value && value.code === 'said' && 'text' in value) told.push(String(value.text));
    else Object.values(value).forEach(collect);
  };
  collect([positions.map(({ because, limitedBy }) => [because, limitedBy]), safety.hazards, casts, tendency]);
  collect(plan?.blocks);
  expect(told.length).toBeGreaterThan(60);
  const plain = (text: string): string => text.toLowerCase().replaceAll('.', '');
  const page = plain(JSON.stringify(toPage(document, wordsFor('en'))).replaceAll('\\"', '"'));
  for (const sentence of told) expect(page).toContain(plain(sentence));
});
