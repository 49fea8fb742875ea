/** What the clock says against: a measurement cannot be taken, nor a forecast issued, later than now. */
import type { Observation } from '../record/index.ts';
import { DAY_MS, HOUR_MS } from '../units/time/index.ts';
import { serviceRow, type ServiceId } from '../vocabulary/index.ts';
import type { Note } from './note.ts';

/** Clocks of stations and of this machine differ by less (common practice, no source). */
const CLOCKS_APART_MS = 10 * 60_000;

/** Whether an instant lies further ahead than clocks differ. */
export const isAhead = (atMs: number, nowMs: number): boolean => atMs > nowMs + CLOCKS_APART_MS;

/** A zone or a clock on the wrong day is wrong by no more than this; what lies further ahead is one damaged row. */
const MOST_CLOCK_MS = 26 * HOUR_MS;

/**
 * Observations without those that claim to come from the future: measured values, and forecasts issued later than now.
 * Values that were measured within the difference of clocks stay. Of a gauge that stamps values ahead, those of the last
 * day before now are doubted: by the same clock they are older than they say.
 *
 * @param nowMs  the instant of asking, epoch ms
 * @param wallMs the machine's clock where a past morning is asked for: what came since then is no fault of a clock
 */
export function notAhead(
  observations: readonly Observation[],
  source: ServiceId,
  nowMs: number,
  note: Note,
  wallMs = nowMs,
): Observation[] {
  const kept: Observation[] = [];
  const aheadOf = new Map<string, number>();
  let ahead = 0;
  for (const row of observations) {
    const learnt = row.kind === 'forecast' ? row.issuedMs : row.atMs;
    if (learnt === null || !isAhead(learnt, nowMs)) {
      kept.push(row);
      continue;
    }
    ahead += 1;
    const byMs = learnt - Math.max(nowMs, wallMs);
    if (row.kind === 'observed' && byMs > CLOCKS_APART_MS && byMs <= MOST_CLOCK_MS)
      aheadOf.set(gaugeOf(row), Math.max(byMs, aheadOf.get(gaugeOf(row)) ?? 0));
  }
  if (ahead > 0) {
    note(
      `${serviceRow(source).name}: ${ahead === 1 ? 'one value is' : `${ahead} values are`} stamped in the future and ${ahead === 1 ? 'was' : 'were'} not used; a clock is wrong there or here.`,
    );
  }
  if (aheadOf.size === 0) return kept;
  return kept.map((row) => {
    const aheadMs = row.atMs > nowMs - DAY_MS ? aheadOf.get(gaugeOf(row)) : undefined;
    return aheadMs === undefined || row.doubt !== undefined
      ? row
      : { ...row, doubt: { code: 'doubt.clock', aheadMs } };
  });
}

const gaugeOf = ({ variable, station }: Observation): string => `${variable} ${station}`;
