/** A page made while the day goes on, or after it: what is over is no advice. */
import { describe, expect, it } from 'vitest';
import type { Briefing } from '../../src/briefing/index.ts';
import { loadConfig } from '../../src/config/index.ts';
import { loadRules } from '../../src/config/rules.ts';
import { openRecord } from '../../src/record/index.ts';
import { renderBriefing } from '../../src/render/index.ts';
import { makeBriefing } from '../../src/schedule/makeBriefing.ts';
import { pageOf, wordsFor } from '../../src/words/index.ts';
import { PLANS } from '../helpers/mornings/plans.ts';
import { fillRecord, issueMs } from '../helpers/mornings/record.ts';

const HOUR_MS = 3_600_000;

/** The invented morning of warm rain, its page made so many hours after the usual. */
async function madeLate(hours: number): Promise<Briefing> {
  const config = await loadConfig('tests/helpers/mornings/lake.yaml');
  const [lake] = config.lakes;
  const plan = PLANS.find(({ name }) => name === 'warm-rain-pulse');
  if (lake === undefined || plan === undefined) throw new Error('no lake or no morning');
  const record = await openRecord(':memory:');
  try {
    await fillRecord(record, plan, lake);
    const ctx = { config, record, rules: loadRules(), env: {} };
    const asOfMs = issueMs(plan, lake) + hours * HOUR_MS;
    return (await makeBriefing(ctx, lake.id, { asOfMs, offline: true })).document;
  } finally {
    await record.close();
  }
}

describe('a page made after the fishing hours', () => {
  it('says that they are over, and names no place, no lure and no wind of the day', async () => {
    const facts = await madeLate(14.5);
    const page = pageOf(facts, wordsFor('en'));
    expect(page.plan).toMatchObject({ blocks: [], none: 'The fishing hours of today are over.' });
    expect(page.subject).not.toMatch(/start at/);
    expect(page.bottomLine).toMatch(/^No hours are left to fish today\./);
    const { text } = await renderBriefing(facts, { units: 'us', form: 'full' });
    expect(text).toContain('Left out today: no hours are left to fish.');
    expect(text).not.toMatch(/the wind reaches|Boat over|Tie on/);
  });
});

it('made with an hour left says that it is too little for a plan', async () => {
  const page = pageOf(await madeLate(12.5), wordsFor('en'));
  expect(page.plan?.none).toBe('Too little is left of today’s fishing hours for a plan.');
});

it('made at noon plans the afternoon alone', async () => {
  const facts = await madeLate(7);
  const { plan, issuedMs } = facts.status === 'nil' ? { plan: null, issuedMs: 0 } : facts;
  expect(plan?.blocks.length).toBeGreaterThan(0);
  for (const { fromMs } of plan?.blocks ?? []) expect(fromMs).toBeGreaterThanOrEqual(issuedMs);
});
