/** Which issues count: real ones, made in the morning, one a date. */
import { DateTime } from 'luxon';
import { readComparable } from '../briefing/index.ts';
import type { Issue } from './types.ts';

/** Issues further back say little about the program of today. */
export const LAST_ISSUES = 30;

export interface KeptIssue {
  readonly localDate: string;
  readonly issuedMs: number;
  readonly documentJson: string;
}

/**
 * The last issues that can be scored, oldest first: of each date before today the first one, so that an amendment or
 * a correction that already knew more polishes nothing. Left out are demonstrations, previews, NIL briefings, what
 * another version wrote differently, and what was issued after noon, when most of its day was known.
 *
 * @param today local date of the lake
 */
export function scoredIssues(kept: readonly KeptIssue[], zone: string, today: string): Issue[] {
  const first = new Map<string, KeptIssue>();
  for (const row of kept) {
    const known = first.get(row.localDate);
    if (row.localDate < today && (known === undefined || row.issuedMs < known.issuedMs))
      first.set(row.localDate, row);
  }
  const issues: Issue[] = [];
  for (const row of [...first.values()].sort((a, b) => (a.localDate < b.localDate ? 1 : -1))) {
    if (issues.length === LAST_ISSUES) break;
    const read = readComparable(row.documentJson);
    if (read?.date !== row.localDate) continue;
    // A document can be made some time before it goes out; what came in between was no longer ahead.
    const issue: Issue = { ...read, issuedMs: Math.max(row.issuedMs, read.issuedMs) };
    if (counts(issue, zone)) issues.push(issue);
  }
  return issues.reverse();
}

function counts({ status, demo, preview, date, issuedMs }: Issue, zone: string): boolean {
  const noonMs = DateTime.fromISO(date, { zone }).set({ hour: 12 }).toMillis();
  return status !== 'nil' && !demo && !preview && issuedMs < noonMs;
}
