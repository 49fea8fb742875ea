import { dayNumber, isoDate } from './calendar.ts';
import type { LakeDay } from './types.ts';

const Z80 = 1.2816;

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
 * The two ends share most of their error, the more so the nearer they are, so the interval is narrower than the
 * sum of both: correlation exp(-span / 20 d), floor 0.25 K.
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
  const changeC = end.waterC - start.waterC;
  const half = changeHalfWidthC(end, start, spanDays);
  const sd = half / Z80;
  const confidence = Math.abs(changeC) >= 2 * sd ? 'high' : Math.abs(changeC) >= sd ? 'medium' : 'low';
  return { changeC, lowC: changeC - half, highC: changeC + half, confidence };
}

function changeHalfWidthC(end: LakeDay, start: LakeDay, spanDays: number): number {
  const a = end.highC - end.waterC;
  const b = start.highC - start.waterC;
  const shared = Math.exp(-spanDays / 20);
  return Math.max(0.25, Math.sqrt(Math.max(0, a * a + b * b - 2 * shared * a * b)));
}
