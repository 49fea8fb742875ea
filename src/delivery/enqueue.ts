import { DateTime } from 'luxon';
import { addToOutbox, type OutboxEntry, readersWanting } from '../record/delivery/index.ts';
import type { DeliveryRecord } from '../record/index.ts';
import type { Edition } from './types.ts';

export interface Issue {
  readonly lakeId: string;
  readonly zone: string;
  /** `YYYY-MM-DD` at the lake. */
  readonly localDate: string;
  readonly edition: Edition;
  readonly issuedMs: number;
  /** How long after the earliest moment a copy is still worth sending, ms. */
  readonly graceMs: number;
  /** Only these reader ids; without it, everybody who wants this lake on this day. */
  readonly readers?: readonly string[];
}

const PAGE = 2000;

/**
 * Puts one row into the outbox for every active reader who wants this lake, day and edition. Doing it again adds
 * nobody twice. Returns how many rows were new.
 */
export async function enqueue(record: DeliveryRecord, issue: Issue): Promise<number> {
  const day = DateTime.fromISO(issue.localDate, { zone: issue.zone });
  const only = issue.readers === undefined ? undefined : new Set(issue.readers);
  // A list of any length is never held in memory.
  let after = '';
  let added = 0;
  for (;;) {
    const page = await readersWanting(record, { ...issue, weekday: day.weekday }, after, PAGE);
    const entries: OutboxEntry[] = [];
    for (const reader of page) {
      if (only?.has(reader.id) === false) continue;
      const earliestMs = reader.earliest_hour === 0 ? 0 : day.set({ hour: reader.earliest_hour }).toMillis();
      const notBeforeMs = Math.max(issue.issuedMs, earliestMs);
      const { lakeId, localDate, edition } = issue;
      const expiresMs = notBeforeMs + issue.graceMs;
      entries.push({ lakeId, localDate, edition, readerId: reader.id, notBeforeMs, expiresMs });
    }
    added += await addToOutbox(record, entries, issue.issuedMs);
    const last = page.at(-1);
    if (last === undefined || page.length < PAGE) return added;
    after = last.id;
  }
}
