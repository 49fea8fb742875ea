import { Z80 } from '../../science/index.ts';
import { dayNumber, isoDate } from '../../units/time/index.ts';
import type { LakeDay } from './types.ts';

export interface WaterChange {
  readonly changeC: number;
  /** 80 % interval of the change, K. */
  readonly lowC: number;
  readonly highC: number;
  readonly confidence: 'high' | 'medium' | 'low';
}

/**
 * Change of the modelled water temperature over a span that ends on a date.
 *
 * The two ends share part of their error, the more so the nearer they are. How much was measured on held-out years of
 * five lakes: the interval is a share of what two independent ends would have.
 *
 * @param days result of `nowcastLake`
 * @param spanDays 1 to 365
 * @returns null when one of the two days has no estimate
 */
export function waterChange(days: readonly LakeDay[], date: string, spanDays: number): WaterChange | null {
  const from = isoDate(dayNumber(date) - spanDays);
  const end = days.find((day) => day.date === date);
  const start = days.find((day) => day.date === from);
  if (end === undefined || start === undefined) return null;
  const changeC = lookedBack(end).waterC - lookedBack(start).waterC;
  const half = changeHalfWidthC(end, start, spanDays);
  const sd = half / Z80;
  const confidence = Math.abs(changeC) >= 2 * sd ? 'high' : Math.abs(changeC) >= sd ? 'medium' : 'low';
  return { changeC, lowC: changeC - half, highC: changeC + half, confidence };
}

/** A day with all that is known by now: a reading of today is no warming of today. */
export function lookedBack(day: LakeDay): NonNullable<LakeDay['hindsight']> {
  return day.hindsight ?? { waterC: day.waterC, halfC: day.highC - day.waterC };
}

function changeHalfWidthC(end: LakeDay, start: LakeDay, spanDays: number): number {
  const independent = Math.hypot(lookedBack(end).halfC, lookedBack(start).halfC);
  return Math.max(0.15, independent * unsharedError(end, start, Math.log(spanDays)));
}

/** Share of the error of two days that is not common to both. */
function unsharedError(end: LakeDay, start: LakeDay, logSpan: number): number {
  if (end.readingAgeDays === null || start.readingAgeDays === null)
    return Math.min(0.8, 0.23 + 0.145 * logSpan);
  // Both ends fresh from a reading of their own: hardly anything in common.
  if (end.readingAgeDays <= 2 && start.readingAgeDays <= 2) return Math.min(1.1, 0.94 + 0.1 * logSpan);
  return Math.min(0.95, 0.43 + 0.21 * logSpan);
}
