/** The year of daily levels behind a lake's gauges: asked for on first use, then once a month to close holes. */
import type { LakeConfig } from '../config/index.ts';
import { lastAsked } from '../record/observations/index.ts';
import { DAY_MS, HOUR_MS } from '../units/time/index.ts';
import type { RecordStore } from '../record/index.ts';
import { fetchLevelYear, gaugesWithAYear, type LakeRefresh, type RefreshDeps } from '../services/index.ts';
import { attempt } from './attempt.ts';

/** Name under which the attempts are logged. */
export const LEVEL_YEAR = 'level-year';
/** Between asks the record's own values carry the year on. */
const EVERY_DAYS = 30;
/** After a failure not with every refresh, but with the next morning's. */
const RETRY_MS = 20 * HOUR_MS;

/** The year of every lake whose services have just answered: one that is down is not waited for twice a morning. */
export async function fillLevelYears(
  record: RecordStore,
  lakes: readonly LakeConfig[],
  refreshed: readonly LakeRefresh[],
  deps: RefreshDeps,
): Promise<void> {
  for (const lake of lakes) {
    const { retrievals = [] } = refreshed.find((result) => result.lake === lake.id) ?? {};
    const answering = new Set(retrievals.filter(({ ok }) => ok).map(({ source }) => source));
    await fillLevelYear(record, lake, deps, answering);
  }
}

/**
 * Fetch and store the year when it is due. A failure costs the position in the year's range and nothing else.
 *
 * @param answering sources that have just answered for the lake
 */
export async function fillLevelYear(
  record: RecordStore,
  lake: LakeConfig,
  deps: RefreshDeps,
  answering: ReadonlySet<string>,
): Promise<void> {
  const gauges = gaugesWithAYear(lake);
  if (gauges.length === 0 || gauges.some(({ service }) => !answering.has(service))) return;
  const { askedMs, answeredMs } = await lastAsked(record, lake.id, LEVEL_YEAR);
  if (answeredMs !== null && deps.nowMs - answeredMs < EVERY_DAYS * DAY_MS) return;
  if (askedMs !== null && deps.nowMs - askedMs < RETRY_MS) return;
  await attempt(
    record,
    { lake: lake.id, source: LEVEL_YEAR, nowMs: deps.nowMs },
    () => fetchLevelYear(lake, deps),
    (why) =>
      `The past year's levels could not be fetched: the level's place in the year's range waits for them. ${why}`,
  );
}
