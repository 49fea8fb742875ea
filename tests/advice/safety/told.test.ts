/** Which numbers a hazard is told with. */
import { describe, expect, it } from 'vitest';
import { judgeSafety } from '../../../src/advice/safety/index.ts';
import { combinedHazard, hazardOf } from '../../../src/advice/safety/rows.ts';
import { withWindSide } from '../../../src/advice/safety/windSide.ts';
import { darkHoursOf } from '../../../src/advice/safety/dark.ts';
import type { Quantities } from '../../../src/advice/safety/quantities.ts';
import { CALM, CHECKED, conditions, table } from './day.ts';

const row = (id: string) => table.hazards.find((one) => one.id === id)!;
const number = (value: number, low = value, high = value) => ({ value, low, high });
const told = (id: string, quantities: Quantities) => hazardOf(row(id), quantities);

describe('a hazard of one number', () => {
  it('is told with the number itself where that reaches the class', () => {
    expect(told('wind', { windMs: number(14, 10, 14.5) })).toMatchObject({ value: 14 });
    expect(told('wind', { windMs: number(14, 10, 14.5) })).not.toHaveProperty('to');
    expect(told('cold-water', { waterC: number(8, 5, 11) })).toMatchObject({ value: 8 });
    expect(told('cold-water', { waterC: number(8, 5, 11) })).not.toHaveProperty('to');
  });

  it('is told as a range where only its worse end does', () => {
    const wind = told('wind', { windMs: number(4, 3, 18) });
    expect(wind).toMatchObject({ value: 4, to: 18 });
    expect(wind!.level).toBe(told('wind', { windMs: number(18) })!.level);
    const water = told('cold-water', { waterC: number(22, 5, 26) });
    expect(water).toMatchObject({ value: 5, to: 26 });
  });
});

describe('a hazard of several things', () => {
  const gusts = table.combinations.find(({ id }) => id === 'cold-water-gusts')!;
  const standing = new Map([['cold-water', { level: 2 as const, known: true }]]);

  it('is told with what is too high, to its worse end where only that is', () => {
    expect(combinedHazard(gusts, standing, { gustMs: number(13) })).toMatchObject({
      numbers: [{ quantity: 'gustMs', value: 13 }],
    });
    expect(combinedHazard(gusts, standing, { gustMs: number(9, 8, 13) })).toMatchObject({
      numbers: [{ quantity: 'gustMs', value: 9, to: 13 }],
    });
  });

  it('is none where a part is not known, and has no numbers where nothing of it is too high', () => {
    expect(combinedHazard(gusts, standing, {})).toBeNull();
    const both = table.combinations.find(({ id }) => id === 'cold-water-wind')!;
    const wind = new Map([...standing, ['wind', { level: 2 as const, known: true }]]);
    expect(combinedHazard(both, wind, {})).toMatchObject({ level: both.level });
    expect(combinedHazard(both, wind, {})).not.toHaveProperty('numbers');
  });
});

describe('the side that the wind comes from', () => {
  const hour = (fromH: number, windMs: number, windFromDeg: number) => ({
    fromMs: fromH * 3_600_000,
    toMs: (fromH + 1) * 3_600_000,
    windMs,
    windFromDeg,
  });
  const hours = [hour(8, 10, 180), hour(15, 10, 270)];
  const day = conditions({ ...CALM, windMs: 14, windMaxMs: 14, gustMs: 16 });
  const wind = judgeSafety(day, table, CHECKED).hazards.find(({ id }) => id === 'wind');

  it('is that of the hazard’s own hours', () => {
    const at = (fromH: number) =>
      withWindSide(
        [{ ...wind!, hours: [hours.find(({ fromMs }) => fromMs === fromH * 3_600_000)!] }],
        table,
        {
          ...CHECKED,
          hours,
        },
      )[0]?.windFromDeg;
    expect(at(8)).toBe(180);
    expect(at(15)).toBe(270);
  });

  it('is of no weak hour beside a strong one', () => {
    const turned = withWindSide([wind!], table, { ...CHECKED, hours: [hour(8, 1, 20), hour(15, 12, 270)] });
    expect(turned[0]?.windFromDeg).toBe(270);
  });
});

describe('hours in the dark', () => {
  const hours = [-12, -7, -5, 3].map((sunAltitudeDeg, i) => ({
    fromMs: i * 3_600_000,
    toMs: (i + 1) * 3_600_000,
    sunAltitudeDeg,
  }));
  it('are those of the fishing day outside civil light, in part too', () => {
    expect(darkHoursOf(hours, { fromMs: 0, toMs: 4 * 3_600_000 })).toBe(2);
    expect(darkHoursOf(hours, { fromMs: 1_800_000, toMs: 4 * 3_600_000 })).toBe(1.5);
    expect(darkHoursOf(hours, { fromMs: 2 * 3_600_000, toMs: 4 * 3_600_000 })).toBe(0);
  });
  it('are not known without fishing hours or without the sun', () => {
    expect(darkHoursOf(hours, null)).toBeUndefined();
    const blind = hours.map(({ fromMs, toMs }) => ({ fromMs, toMs }));
    expect(darkHoursOf(blind, { fromMs: 0, toMs: 4 * 3_600_000 })).toBeUndefined();
  });
});
