/** When an issue falls due. Pure; the run table, not the clock, remembers what was done. */
import type { LakeConfig } from '../config/index.ts';
import type { RunState } from '../record/schema/index.ts';
import { addDays, instantOf, localDateAt } from '../units/time/index.ts';

export type SlotLake = Pick<LakeConfig, 'id' | 'zone' | 'issueAt' | 'graceMinutes' | 'eveningOutlook'>;
export type SlotEdition = 'morning' | 'evening';

/** A run as the schedule needs to know it. */
export interface KnownRun {
  readonly lakeId: string;
  readonly localDate: string;
  readonly edition: string;
  readonly state: RunState;
  readonly leaseUntilMs: number;
}

export interface Slot {
  readonly lakeId: string;
  readonly localDate: string;
  readonly edition: SlotEdition;
  readonly dueMs: number;
  /** After this instant the slot is missed. */
  readonly deadlineMs: number;
  readonly action: 'issue' | 'miss';
}

/** Local time and grace of the evening outlook: early enough to pack the boat, late enough to know the day. */
const EVENING = { at: '18:30', graceMinutes: 120 } as const;
/** Days looked back for mornings that passed while nothing ran. */
export const LOOK_BACK_DAYS = 31;

function editionsOf(lake: SlotLake): { edition: SlotEdition; at: string; graceMinutes: number }[] {
  const morning = { edition: 'morning' as const, at: lake.issueAt, graceMinutes: lake.graceMinutes };
  return lake.eveningOutlook ? [morning, { edition: 'evening', ...EVENING }] : [morning];
}

/**
 * Slots that are due at the instant and not over: to be issued while in grace, to be written down as missed after.
 *
 * The first day a lake is ever seen has no past: nothing before it counts as missed. A clock that was set back finds
 * the rows of the days it sees again; rows more than a day ahead, left by a clock that once ran ahead, are ignored;
 * an instant before everything the record knows is a wrong clock, and nothing is due.
 */
export function dueSlots(nowMs: number, lakes: readonly SlotLake[], runs: readonly KnownRun[]): Slot[] {
  return lakes.flatMap((lake) =>
    editionsOf(lake).flatMap(({ edition, at, graceMinutes }) => {
      const known = runs.filter((r) => r.lakeId === lake.id && r.edition === edition);
      const today = localDateAt(nowMs, lake.zone);
      return datesToLookAt(today, known).flatMap((localDate) => {
        // Of a time that the autumn change repeats one is taken; the run table keeps the other from counting.
        const dueMs = instantOf(localDate, at, lake.zone);
        const deadlineMs = dueMs + graceMinutes * 60_000;
        if (nowMs < dueMs) return [];
        const run = known.find((r) => r.localDate === localDate);
        if (run?.state === 'issued' || run?.state === 'missed') return [];
        if (run?.state === 'claimed' && run.leaseUntilMs > nowMs) return [];
        const action = nowMs <= deadlineMs ? 'issue' : 'miss';
        if (action === 'miss' && known.length === 0) return [];
        return [{ lakeId: lake.id, localDate, edition, dueMs, deadlineMs, action } as const];
      });
    }),
  );
}

/** From the newest day with a row to today, or only today for a lake without any. */
function datesToLookAt(today: string, known: readonly KnownRun[]): string[] {
  if (known.length === 0) return [today];
  const tomorrow = addDays(today, 1);
  const past = known.map((r) => r.localDate).filter((date) => date <= tomorrow);
  if (past.length === 0) return [];
  const first = past.reduce((a, b) => (a > b ? a : b));
  const unfinished = known
    .filter((r) => r.localDate <= tomorrow && (r.state === 'failed' || r.state === 'claimed'))
    .map((r) => r.localDate);
  const from = [first, ...unfinished].reduce((a, b) => (a < b ? a : b));
  const oldest = addDays(today, -LOOK_BACK_DAYS);
  const dates: string[] = [];
  for (let date = from > oldest ? from : oldest; date <= today; date = addDays(date, 1)) dates.push(date);
  return dates;
}

/** The next morning issue after an instant, epoch ms. */
export function nextIssueMs(nowMs: number, lake: SlotLake): number {
  const today = localDateAt(nowMs, lake.zone);
  const dueMs = instantOf(today, lake.issueAt, lake.zone);
  return dueMs > nowMs ? dueMs : instantOf(addDays(today, 1), lake.issueAt, lake.zone);
}

const MINUTE_MS = 60_000;
/** Time before the issue from which the last refresh and the preflight count. */
export const LAST_LOOK_MS = 30 * MINUTE_MS;
const NIGHT_MS = 6 * 60 * MINUTE_MS;

/**
 * Whether a lake's data should be fetched again: hourly through the six hours before the issue and once within
 * its last half hour, three-hourly for the rest of the day.
 *
 * @param lastMs instant of the last attempt, or null
 */
export function refreshDue(nowMs: number, lake: SlotLake, lastMs: number | null): boolean {
  if (lastMs === null || lastMs > nowMs) return true;
  const toIssueMs = nextIssueMs(nowMs, lake) - nowMs;
  if (toIssueMs <= LAST_LOOK_MS) return nowMs - lastMs > LAST_LOOK_MS - toIssueMs;
  return nowMs - lastMs >= (toIssueMs <= NIGHT_MS ? 60 : 180) * MINUTE_MS;
}
