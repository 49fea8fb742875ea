/** What the clock says against: a measurement cannot be taken, nor a forecast issued, later than now. */
import type { Observation } from '../record/types.ts';
import { serviceRow, type ServiceId } from '../vocabulary/index.ts';
import type { Note } from './note.ts';

/** Clocks of stations and of this machine differ by less (common practice, no source). */
export const CLOCKS_APART_MS = 10 * 60_000;

/** Whether an instant lies further ahead than clocks differ. */
export const isAhead = (atMs: number, nowMs: number): boolean => atMs > nowMs + CLOCKS_APART_MS;

/**
 * Observations without those that claim to come from the future: measured values, and forecasts issued later than now.
 * Values that were measured within the difference of clocks stay.
 *
 * @param nowMs the instant of asking, epoch ms
 */
export function notAhead(
  observations: readonly Observation[],
  source: ServiceId,
  nowMs: number,
  note: Note,
): Observation[] {
  const kept: Observation[] = [];
  let ahead = 0;
  for (const row of observations) {
    const learnt = row.kind === 'forecast' ? row.issuedMs : row.atMs;
    if (learnt !== null && isAhead(learnt, nowMs)) ahead += 1;
    else kept.push(row);
  }
  if (ahead > 0) {
    note(
      `${serviceRow(source).name}: ${ahead === 1 ? 'one value is' : `${ahead} values are`} stamped in the future and ${ahead === 1 ? 'was' : 'were'} not used; a clock is wrong there or here.`,
    );
  }
  return kept;
}
