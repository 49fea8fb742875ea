/** Loads what was issued for a lake and scores it by what the record knows since. */
import type { LakeConfig } from '../config/index.ts';
import { listBriefings } from '../record/schedule/index.ts';
import { localDateAt } from '../units/time/index.ts';
import type { RecordStore, RecordView } from '../record/index.ts';
import { LAST_ISSUES, scoredIssues, verify, type Verification } from '../verification/index.ts';

/** Morning, amendment and evening of a date are kept apart. */
const EDITIONS = 3;

/** @param view what is known at its instant: later issues and later outcomes count for nothing */
export async function verificationOf(
  record: RecordStore,
  lake: LakeConfig,
  view: RecordView,
): Promise<Verification> {
  // Nothing issued for an invented lake is scored.
  if (lake.demo) return { issues: 0, scores: [] };
  const today = localDateAt(view.asOfMs, lake.zone);
  const kept = await listBriefings(record, lake.id, LAST_ISSUES * EDITIONS, today);
  const issued = kept.filter(
    // An evening's look at a day is no promise of its own: the morning's issue of that day is scored.
    ({ issuedMs, edition }) => issuedMs < view.asOfMs && edition !== 'evening',
  );
  return verify(scoredIssues(issued, lake.zone, today), view, lake);
}
