/** Issues an invented morning with the program itself: a record in memory, and the briefing made from it. */
import { fileURLToPath } from 'node:url';
import type { Briefing } from '../../../src/briefing/index.ts';
import { loadConfig } from '../../../src/config/index.ts';
import { loadRules } from '../../../src/config/rules.ts';
import { storeBriefing } from '../../../src/record/schedule/briefings.ts';
import { openRecord } from '../../../src/record/index.ts';
import type { PipelineContext } from '../../../src/schedule/context.ts';
import { makeBriefing } from '../../../src/schedule/makeBriefing.ts';
import type { MorningPlan } from './plan.ts';
import { fillRecord, issueMs } from './record.ts';

const loaded = await loadConfig(fileURLToPath(new URL('lake.yaml', import.meta.url)));
const rules = loadRules();

export async function issueMorning(plan: MorningPlan): Promise<Briefing> {
  const [first] = loaded.lakes;
  if (first === undefined) throw new Error('lake.yaml names no lake');
  const lake = plan.lake?.(first) ?? first;
  const record = await openRecord(':memory:');
  try {
    await fillRecord(record, plan, lake);
    const ctx: PipelineContext = { config: { ...loaded, lakes: [lake] }, record, rules, env: {} };
    for (let back = plan.issuesBefore ?? 0; back > 0; back -= 1) {
      const asOfMs = issueMs(plan, lake, back);
      const { document } = await makeBriefing(ctx, lake.id, { asOfMs, offline: true });
      const key = { lakeId: lake.id, localDate: document.date, edition: 'morning' } as const;
      const documentJson = JSON.stringify(document);
      await storeBriefing(record, key, { issuedMs: asOfMs, documentJson, renderings: [] });
    }
    const { document } = await makeBriefing(ctx, lake.id, {
      asOfMs: issueMs(plan, lake),
      offline: true,
      ...(plan.status === undefined ? {} : { status: plan.status }),
      ...(plan.preview === undefined ? {} : { preview: plan.preview }),
    });
    return asDemo(document);
  } finally {
    await record.close();
  }
}

/** Demonstrations are not scored, so a lake that shows scores is no demonstration to the program; to a reader it is. */
const asDemo = (document: Briefing): Briefing => ({ ...document, demo: true });
