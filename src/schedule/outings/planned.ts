/** What the mornings' briefings told their readers to fish, as kept when they were issued. */
import { z } from 'zod';
import type { PlannedPlaces } from '../../outings/index.ts';
import { loadBriefing } from '../../record/schedule/index.ts';
import type { RecordStore } from '../../record/index.ts';

/** As much of a kept document as is looked at; every version has it. */
const keptSchema = z.object({
  positions: z.array(z.object({ place: z.string() })).optional(),
  plan: z.object({ blocks: z.array(z.object({ place: z.string() })) }).nullish(),
});

/** Kinds of place of the plan's blocks, else of the first choice; dates without a briefing are left out. */
export async function plannedPlaces(
  record: RecordStore,
  lakeId: string,
  dates: Iterable<string>,
): Promise<PlannedPlaces> {
  const planned = new Map<string, readonly string[]>();
  for (const localDate of new Set(dates)) {
    const kept = await loadBriefing(record, { lakeId, localDate, edition: 'morning' });
    if (kept === undefined) continue;
    const read = keptSchema.safeParse(JSON.parse(kept.documentJson));
    if (!read.success) continue;
    const blocks = read.data.plan?.blocks ?? [];
    const places = blocks.length > 0 ? blocks : (read.data.positions ?? []).slice(0, 1);
    planned.set(localDate, [...new Set(places.map(({ place }) => place))]);
  }
  return planned;
}
