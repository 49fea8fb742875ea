/** Readers of one lake who fish other hours, or read another language, get the same morning told for them. */
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Briefing } from '../../src/briefing/index.ts';
import { loadConfig, type LakeConfig } from '../../src/config/index.ts';
import { loadRules } from '../../src/config/rules.ts';
import { addReader, drain, type ReaderWishes } from '../../src/delivery/index.ts';
import { loadOwnRendering, ownKey, wantedViews } from '../../src/record/delivery/own.ts';
import { openRecord, type RecordStore } from '../../src/record/index.ts';
import { issueEdition } from '../../src/schedule/issue.ts';
import { makeBriefing, type BriefingResult } from '../../src/schedule/makeBriefing.ts';
import { madeFrom } from '../../src/schedule/pipeline.ts';
import type { Language } from '../../src/vocabulary/index.ts';
import { PSEUDO } from '../../src/words/index.ts';
import { readerByAddress, updateReader } from '../../src/record/delivery/readers.ts';
import { PLANS } from '../helpers/mornings/plans.ts';
import { fillRecord, issueMs } from '../helpers/mornings/record.ts';
import { deps, pipeline } from './kit.ts';
import { silent } from '../delivery/kit.ts';

const EARLY = { from: '05:30', to: '09:00' };
const LATE = { from: '15:00', to: '19:00' };

describe('a morning for several readers', () => {
  let record: RecordStore;
  let lake: LakeConfig;
  let result: BriefingResult;
  let nowMs: number;
  let renderings = 0;
  const bodies = new Map<string, { text: string; html: string }>();

  const add = (name: string, wishes: Partial<ReaderWishes>): Promise<unknown> =>
    addReader(
      record,
      `${name}@example.org`,
      { lakes: [lake.id], form: 'full', ...wishes },
      { knownLakes: [lake.id], nowMs },
    );

  beforeAll(async () => {
    const config = await loadConfig(fileURLToPath(new URL('../helpers/mornings/lake.yaml', import.meta.url)));
    const plan = PLANS.find(({ name }) => name === 'warm-rain-pulse');
    const [first] = config.lakes;
    if (plan === undefined || first === undefined) throw new Error('no such morning');
    lake = first;
    record = await openRecord(':memory:');
    await fillRecord(record, plan, lake);
    nowMs = issueMs(plan, lake);
    const ctx = { config: { ...config, lakes: [lake] }, record, rules: loadRules(), env: {} };
    result = await makeBriefing(ctx, lake.id, { asOfMs: nowMs, offline: true });
    await add('usual', {});
    await add('early', { fishing: EARLY });
    await add('early-too', { fishing: EARLY });
    await add('late', { fishing: LATE, form: 'short' });
    await add('foreign', {});
    const foreign = await readerByAddress(record, 'foreign@example.org');
    // Nobody speaks it, so no configuration offers it.
    await updateReader(record, foreign?.id ?? '', { language: PSEUDO as Language });
    const clock = { ms: nowMs };
    const made = madeFrom(result);
    const counted = {
      ...made,
      render: (...asked: Parameters<typeof made.render>) => {
        renderings += 1;
        return made.render(...asked);
      },
    };
    const kit = deps(record, clock, {
      pipeline: pipeline({ makeBriefing: () => Promise.resolve(counted) }),
      log: silent,
    });
    const order = { localDate: result.document.date, edition: 'morning', dueMs: nowMs } as const;
    const issued = await issueEdition(kit, { ...order, lake, deadlineMs: nowMs + 3_600_000 });
    expect(issued).toEqual({ outcome: 'issued', readers: 5 });
    // One of them changes their mind between the issue and the sending.
    await add('usual', { fishing: { from: '10:00', to: '12:00' } });
    const transport: typeof kit.transport = {
      ...kit.transport,
      send: (message) => {
        const { text, html } = message;
        const to: unknown = [message.envelope?.to].flat()[0];
        bodies.set(typeof to === 'string' ? (to.split('@')[0] ?? '') : '', {
          text: typeof text === 'string' ? text : '',
          html: typeof html === 'string' ? html : '',
        });
        return Promise.resolve({ response: 'kept' });
      },
    };
    await drain(record, { ...kit, mail: { ...config.mail, ratePerSecond: 0 }, transport });
  });
  afterAll(() => record.close());

  const blocksOf = (document: Briefing) => (document.status === 'nil' ? [] : (document.plan?.blocks ?? []));
  const frontOf = (name: string): string => bodies.get(name)?.text.slice(0, 1200) ?? '';

  it.each([EARLY, LATE])('plans for the hours that a reader fishes: %j', ({ from, to }) => {
    const blocks = blocksOf(result.forHours({ from, to }));
    expect(blocks.length).toBeGreaterThan(0);
    for (const block of blocks) {
      expect(block.from >= from).toBe(true);
      expect(block.to <= to).toBe(true);
    }
  });

  it('and changes nothing else of the morning but what is dangerous in those hours', () => {
    const plain = (document: Briefing) => ({
      ...document,
      plan: null,
      rulesWords: {},
      casts: [],
      // It searches what the plan of those hours is made of.
      searchPlan: [],
      safety: null,
    });
    expect(plain(result.forHours(EARLY))).toEqual(plain(result.document));
    expect(result.forHours(EARLY)).not.toEqual(result.document);
  });

  it('holds to the end of the last hour, and names the dark before it', () => {
    const night = result.forHours({ from: '17:00', to: '23:30' });
    const end = Math.max(...blocksOf(night).map(({ toMs }) => toMs));
    expect(night.validUntilMs).toBeGreaterThan(end);
    expect(night.validUntilMs).toBeGreaterThan(result.document.validUntilMs);
    expect(night.safety.hazards.map(({ id }) => id)).toContain('running-in-the-dark');
    expect(result.document.safety.hazards.map(({ id }) => id)).not.toContain('running-in-the-dark');
  });

  it('renders once for all who want the same', async () => {
    expect(await wantedViews(record, lake.id)).toHaveLength(4);
    // Four of the lake, one for the two early ones, one late, one in another language.
    expect(renderings).toBe(7);
  });

  it('sends each what they want, and the lake’s own where the wish is younger than the issue', async () => {
    expect([...bodies.keys()].sort()).toEqual(['early', 'early-too', 'foreign', 'late', 'usual']);
    const own = ownKey({ language: null, fishing: '05:30-09:00' });
    const key = { lakeId: lake.id, localDate: result.document.date, edition: 'morning' } as const;
    const kept = await loadOwnRendering(record, key, { units: 'us', form: 'full', own });
    const { text } = JSON.parse(kept ?? '{}') as { text: string };
    expect(bodies.get('early')?.text).toContain(text.trim());
    expect(frontOf('early-too')).toBe(frontOf('early'));
    expect(frontOf('early')).not.toBe(frontOf('usual'));
    expect(frontOf('late')).not.toBe(frontOf('early'));
    expect(frontOf('usual')).toContain(
      blocksOf(result.document).find(({ named }) => named !== undefined)?.named ?? 'no name',
    );
  });

  it('speaks the language of the reader', () => {
    expect(bodies.get('foreign')?.html).toContain('Ƀ');
    expect(frontOf('foreign')).not.toMatch(/\b(the|and|from)\b/i);
  });
});
