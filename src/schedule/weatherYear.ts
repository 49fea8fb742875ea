/** The year of weather behind a new lake, which the lake model starts from. */
import type { LakeConfig } from '../config/index.ts';
import { DAY_MS, localDateAt } from '../units/time/index.ts';
import type { RecordStore } from '../record/index.ts';
import { fetchArchive, type RefreshDeps } from '../services/index.ts';
import { attempt } from './attempt.ts';

/** Days of weather the lake model wants behind it; a record that lacks more than a few of them is filled. */
const SPIN_UP_DAYS = 400;
const FEW_DAYS = 10;
/** The archive is asked up to here, well inside the days that a first refresh brings. */
const RECENT_DAYS = 60;

/**
 * Ask the archive for what the record lacks, with every refresh until it has answered. Failing costs a wider interval,
 * nothing else.
 *
 * @param spanDays days since the first hour of weather in the record
 */
export async function fillWeatherYear(
  record: RecordStore,
  lake: LakeConfig,
  spanDays: number,
  deps: Pick<RefreshDeps, 'client' | 'services' | 'nowMs'>,
): Promise<void> {
  if (spanDays >= SPIN_UP_DAYS - FEW_DAYS || !lake.weather.includes('open-meteo')) return;
  const { nowMs } = deps;
  const dateBefore = (days: number): string => localDateAt(nowMs - days * DAY_MS, 'utc');
  await attempt(
    record,
    { lake: lake.id, source: 'open-meteo-archive', nowMs },
    () => fetchArchive(lake, dateBefore(SPIN_UP_DAYS), dateBefore(RECENT_DAYS), deps),
    () =>
      'The weather of the past year could not be fetched: the lake model starts from the last three months.',
  );
}
