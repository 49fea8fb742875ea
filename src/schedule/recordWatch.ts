/** Whether the file under the record is still the one that was opened, and whole. */
import type { DeliveryRecord, Upkeep } from '../record/index.ts';
import { getState, putState } from '../record/schedule/index.ts';

type WatchedRecord = DeliveryRecord & { readonly upkeep: Upkeep };

/** Where the result of the daily look is kept: reading a whole file is nothing for every question of a monitor. */
const KEY = 'record-check';

/** Looks through the whole file and notes what it found. */
export async function lookAtRecord(record: WatchedRecord, nowMs: number): Promise<string[]> {
  const complaint = await record.upkeep.complaint();
  await putState(record, KEY, complaint, nowMs);
  return recordProblems(record, complaint);
}

/**
 * What is wrong with the file, as sentences.
 *
 * @param complaint what a look through the file just found; left out, what the last daily look found
 */
export async function recordProblems(record: WatchedRecord, complaint?: string): Promise<string[]> {
  if (!record.upkeep.isStillThere())
    return [
      'The file of the record was removed or replaced while this program uses it: what is written now is lost. Stop the program, put the right file back, start it again.',
    ];
  const found = complaint ?? (await getState(record, KEY));
  if (typeof found !== 'string' || found === '') return [];
  return [`The record is damaged (${found}): stop everything that uses it and restore the newest backup.`];
}
