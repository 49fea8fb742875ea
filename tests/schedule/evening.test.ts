import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { fileURLToPath } from 'node:url';
import type { Briefing } from '../../src/briefing/index.ts';
import { loadConfig } from '../../src/config/index.ts';
import { loadRules } from '../../src/config/rules.ts';
import { openRecord, type RecordStore } from '../../src/record/index.ts';
import { renderBriefing } from '../../src/render/index.ts';
import { makeBriefing } from '../../src/schedule/makeBriefing.ts';
import { HOUR_MS } from '../../src/units/time/calendar.ts';
import { localDateAt } from '../../src/units/time/localTime.ts';
import { PLANS } from '../helpers/mornings/plans.ts';
import { fillRecord, issueMs } from '../helpers/mornings/record.ts';

/** From the morning's issue at 05:15 to the evening's at 18:30. */
const TO_EVENING_MS = 13.25 * HOUR_MS;

describe('the evening edition', () => {
  let record: RecordStore;
  let morning: Briefing;
  let evening: Briefing;
  let eveningMs: number;

  beforeAll(async () => {
    const config = await loadConfig(fileURLToPath(new URL('../helpers/mornings/lake.yaml', import.meta.url)));
    const plan = PLANS.find(({ name }) => name === 'warm-rain-pulse');
    const [lake] = config.lakes;
    if (plan === undefined || lake === undefined) throw new Error('no such morning');
    record = await openRecord(':memory:');
    await fillRecord(record, plan, lake);
    const ctx = { config: { ...config, lakes: [lake] }, record, rules: loadRules(), env: {} };
    const morningMs = issueMs(plan, lake);
    eveningMs = morningMs + TO_EVENING_MS;
    morning = (await makeBriefing(ctx, lake.id, { asOfMs: morningMs, offline: true })).document;
    evening = (await makeBriefing(ctx, lake.id, { asOfMs: eveningMs, offline: true, status: 'evening' }))
      .document;
  });
  afterAll(() => record.close());

  it('is of the coming day, from its first light on', () => {
    expect(evening.status).toBe('evening');
    expect(Date.parse(evening.date) - Date.parse(morning.date)).toBe(24 * HOUR_MS);
    if (evening.status === 'nil' || evening.plan === null) throw new Error('no plan');
    expect(evening.plan.blocks.length).toBeGreaterThan(0);
    for (const { fromMs, toMs } of evening.plan.blocks) {
      expect(localDateAt(fromMs, evening.lake.zone)).toBe(evening.date);
      expect(fromMs).toBeGreaterThanOrEqual(evening.series.sun.dawnMs ?? 0);
      expect(toMs).toBeLessThanOrEqual(evening.series.sun.duskMs ?? Infinity);
    }
    expect(new Set(evening.series.hours.map(({ atMs }) => localDateAt(atMs, evening.lake.zone)))).toEqual(
      new Set([evening.date]),
    );
  });

  it('tells the water as it stands this evening, and holds until the morning’s issue', () => {
    const lakeNow = evening.conditions.find(({ id }) => id === 'waterC')?.now;
    expect(lakeNow?.kind).toBe('estimated');
    expect(evening.nextIssueMs).toBeGreaterThan(eveningMs);
    expect(evening.nextIssueMs - eveningMs).toBeLessThan(12 * HOUR_MS);
  });

  it('says so on its front, and compares with no day', async () => {
    const { text } = await renderBriefing(evening, { units: 'us', form: 'full' });
    expect(text.replace(/\s+/g, ' ')).toContain('as seen at 6:30 pm the evening before');
    expect(text).not.toMatch(/Tomorrow: /);
    expect(text).not.toContain('as today');
    expect(text).toContain('the morning’s issue knows more');
  });
});
