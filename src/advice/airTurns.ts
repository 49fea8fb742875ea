import { HOUR_MS } from '../units/time/index.ts';
import type { HourPoint } from '../signals/index.ts';
import type { AirTurn } from './types.ts';

/** A change of the mean air of this much within two days may not pass unnamed, K (common practice, no source). */
const NAMED_TURN_C = 6;

const DAY_H = 24;
/** A daily mean needs this many hours: a missing night would read as warming. */
const ENOUGH_H = 20;
/** The step of a front is looked for within so many hours of the middle of the change, over so many hours. */
const NEAR_H = 14;
const STEP_H = 3;

/** Air by the hour, keyed by the start of the hour, as an hour point is stamped. */
function airByHour(hours: readonly HourPoint[]): Map<number, number> {
  return new Map(hours.flatMap(({ atMs, airC }) => (airC === undefined ? [] : [[atMs, airC] as const])));
}

function meanOver(air: ReadonlyMap<number, number>, fromMs: number, hours: number): number | null {
  let sum = 0;
  let count = 0;
  for (let hour = 0; hour < hours; hour += 1) {
    const value = air.get(fromMs + hour * HOUR_MS);
    if (value === undefined) continue;
    sum += value;
    count += 1;
  }
  return count >= (ENOUGH_H * hours) / DAY_H ? sum / count : null;
}

/** Mean of the day after an instant minus that of the day before it, K. */
function changeAt(air: ReadonlyMap<number, number>, atMs: number): number | null {
  const before = meanOver(air, atMs - DAY_H * HOUR_MS, DAY_H);
  const after = meanOver(air, atMs, DAY_H);
  return before === null || after === null ? null : after - before;
}

/** Hour in which the air steps most against the same hours of the day before, near the middle of a change. */
function stepHour(air: ReadonlyMap<number, number>, middleMs: number, sign: number): number {
  const against = (atMs: number): number | undefined => {
    const [now, before] = [air.get(atMs), air.get(atMs - DAY_H * HOUR_MS)];
    return now === undefined || before === undefined ? undefined : now - before;
  };
  let best = { atMs: middleMs, step: 0 };
  for (let offset = -NEAR_H; offset <= NEAR_H; offset += 1) {
    const atMs = middleMs + offset * HOUR_MS;
    const [from, to] = [against(atMs - HOUR_MS), against(atMs + (STEP_H - 1) * HOUR_MS)];
    if (from === undefined || to === undefined) continue;
    const step = sign * (to - from);
    // Of hours that hold the same step the last is the one it comes in.
    if (step >= best.step - 1e-9) best = { atMs, step };
  }
  return best.atMs;
}

/**
 * Rises and falls of the mean air by 6 K and more within two days, each once, at its strongest, with its hour.
 *
 * @param hours local hours of the days on end, oldest first; those before the issue count as the day before
 */
export function airTurns(
  hours: readonly HourPoint[],
  zone: string,
  dateOf: (atMs: number) => string,
): AirTurn[] {
  const air = airByHour(hours);
  const changes = [...air.keys()]
    .sort((a, b) => a - b)
    .flatMap((atMs) => {
      const changeC = changeAt(air, atMs);
      return changeC === null ? [] : [{ atMs, changeC }];
    });
  const peaks = changes.filter(({ atMs, changeC }) => {
    if (Math.abs(changeC) < NAMED_TURN_C) return false;
    return !changes.some(
      (other) =>
        Math.abs(other.atMs - atMs) < DAY_H * HOUR_MS &&
        Math.sign(other.changeC) === Math.sign(changeC) &&
        (Math.abs(other.changeC) > Math.abs(changeC) ||
          (Math.abs(other.changeC) === Math.abs(changeC) && other.atMs < atMs)),
    );
  });
  return peaks.map(({ atMs, changeC }) => ({
    code: changeC < 0 ? 'airFalls' : 'airRises',
    atMs: stepHour(air, atMs, Math.sign(changeC)),
    zone,
    changeC: Math.abs(changeC),
    byDate: dateOf(atMs + (DAY_H - 1) * HOUR_MS),
  }));
}

/** A day with its mean air, degC. */
export interface MeanDay {
  readonly date: string;
  readonly meanC: number | undefined;
}

/**
 * The same from daily means alone, where hours are not known: a change from one day to the next or over two days, told
 * on the day after the mean it starts from.
 */
export function airTurnsOfDays(
  days: readonly MeanDay[],
  zone: string,
): (AirTurn & { readonly date: string })[] {
  const found: (AirTurn & { readonly date: string })[] = [];
  for (const [index, { meanC }] of days.entries()) {
    if (meanC === undefined) continue;
    for (const ahead of [1, 2]) {
      const then = days[index + ahead];
      const start = days[index + 1];
      if (then?.meanC === undefined || start === undefined) continue;
      const change = then.meanC - meanC;
      if (Math.abs(change) < NAMED_TURN_C) continue;
      const code = change < 0 ? 'airFalls' : 'airRises';
      const last = found.at(-1);
      // One change spread over two days is one turn.
      if (last !== undefined && last.code === code && last.byDate >= start.date) break;
      found.push({ code, atMs: null, zone, changeC: Math.abs(change), byDate: then.date, date: start.date });
      break;
    }
  }
  return found;
}
