/** A day closed by what comes and goes: whether its hours are known is asked of the numbers that the hazard is judged by. */
import { describe, expect, it } from 'vitest';
import { hoursUnknown } from '../../../src/advice/plan/lateStart.ts';
import type { PlanHour } from '../../../src/advice/plan/index.ts';
import { rules } from '../support.ts';

const hour = (fromH: number, more: Partial<PlanHour> = {}): PlanHour => ({
  fromMs: fromH * 3_600_000,
  toMs: (fromH + 1) * 3_600_000,
  ...more,
});
const unknown = (hazards: readonly string[], hours: readonly PlanHour[]): boolean =>
  hoursUnknown({ code: 'closed', hazards, openHours: 0 }, hours, rules.safety);

/** Hazards by the quantity they are judged by, and those that combine others. */
const by = (quantity: string): string => {
  const row = rules.safety.hazards.find((one) => one.quantity === quantity);
  if (row === undefined) throw new Error(`no hazard of ${quantity}`);
  return row.id;
};
const combined = rules.safety.combinations.find(({ all }) => all.some((part) => 'hazard' in part))!;

describe('the hours of what closes a day', () => {
  it('are unknown where no hour has the number it is judged by', () => {
    expect(unknown([by('thunderPct')], [hour(6), hour(7)])).toBe(true);
    expect(unknown([by('gustMs')], [hour(6, { windMs: 9 }), hour(7)])).toBe(true);
    expect(unknown([by('thunderPct')], [])).toBe(true);
  });

  it('are known as soon as one hour has it', () => {
    expect(unknown([by('thunderPct')], [hour(6), hour(7, { thunderPct: 40 })])).toBe(false);
    expect(unknown([by('gustMs')], [hour(6), hour(7, { gustMs: 15 })])).toBe(false);
  });

  it('are known where two close it and the hours of one are told', () => {
    const both = [by('thunderPct'), by('gustMs')];
    expect(unknown(both, [hour(6)])).toBe(true);
    expect(unknown(both, [hour(6, { gustMs: 15 })])).toBe(false);
  });

  it('of a combination are those of its parts', () => {
    expect(unknown([combined.id], [hour(6), hour(7)])).toBe(true);
    expect(unknown([combined.id], [hour(6, { windMs: 9, gustMs: 15 })])).toBe(false);
  });

  it('are no question where what closes it stands all day', () => {
    expect(unknown([by('waterC')], [hour(6)])).toBe(false);
    expect(unknown([], [hour(6)])).toBe(false);
  });
});
