/** What a lake's outings say, with what its briefings had planned. */
import { compareOutings, type OutingReport } from '../../outings/index.ts';
import { outingsOf, type RecordStore } from '../../record/index.ts';
import { plannedPlaces } from './planned.ts';

/**
 * @param readerId one reader's own outings; left out, those that readers share
 * @param beforeDate only outings of days before it, `YYYY-MM-DD`: a briefing knows nothing of its own day
 */
export async function outingReport(
  record: RecordStore,
  lakeId: string,
  { readerId, beforeDate = '9999' }: { readonly readerId?: string; readonly beforeDate?: string } = {},
): Promise<OutingReport> {
  const filter = readerId === undefined ? { sharedOnly: true } : { readerId };
  const all = await outingsOf(record, { lake: lakeId, ...filter });
  const outings = all.filter(({ date }) => date < beforeDate);
  const planned = await plannedPlaces(
    record,
    lakeId,
    outings.map(({ date }) => date),
  );
  return compareOutings(outings, readerId === undefined ? 'shared' : 'own', planned);
}
