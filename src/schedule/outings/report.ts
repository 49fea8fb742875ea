/** What a lake's outings say, with what its briefings had planned. */
import type { OutingFacts } from '../../briefing/index.ts';
import { compareOutings, type OutingReport, type Rate } from '../../outings/index.ts';
import { outingsOf, type RecordStore } from '../../record/index.ts';
import { plannedPlaces } from './planned.ts';

/**
 * @param readerId one reader's own outings; left out, those that readers share
 * @param asOfMs only what was told by then, epoch ms
 */
export async function outingReport(
  record: RecordStore,
  lakeId: string,
  { readerId, asOfMs }: { readonly readerId?: string; readonly asOfMs?: number } = {},
): Promise<OutingReport> {
  const filter = readerId === undefined ? { sharedOnly: true } : { readerId };
  const known = asOfMs === undefined ? {} : { toldByMs: asOfMs };
  const outings = await outingsOf(record, { lake: lakeId, ...filter, ...known });
  const whose = readerId === undefined ? 'shared' : 'own';
  // Most lakes have too few: then no briefing of the past has to be read.
  const alone = compareOutings(outings, whose, new Map());
  if (!alone.enough) return alone;
  const planned = await plannedPlaces(
    record,
    lakeId,
    outings.map(({ date }) => date),
  );
  return compareOutings(outings, whose, planned);
}

/** What a briefing says of outings; null where there are too few with the plan, or too few elsewhere. */
export function toldOfOutings(report: OutingReport): OutingFacts | null {
  const groups = report.comparisons.find(({ aspect }) => aspect === 'agreement')?.groups ?? [];
  const of = (group: 'followed' | 'elsewhere') => groups.find((one) => one.group === group && one.enough);
  const [followed, elsewhere] = [of('followed'), of('elsewhere')];
  if (followed === undefined || elsewhere === undefined) return null;
  const rate = ({ n, perHour, low, high }: Rate): OutingFacts['followed'] => ({ n, perHour, low, high });
  return {
    n: followed.n + elsewhere.n,
    readers: report.readers,
    followed: rate(followed),
    elsewhere: rate(elsewhere),
  };
}
