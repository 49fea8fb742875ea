/** What the air has done: how much of it must be known, and for how long it warms. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Observation } from '../../src/record/types.ts';
import { warmingDays } from '../../src/signals/weather/air.ts';
import { weatherOf, weatherPart } from '../../src/signals/weather/index.ts';
import { observation, recordView, testLake } from '../helpers/weatherRecord.ts';

const AS_OF = '2026-03-06T11:15:00Z'; // 05:15 at the lake
const HOUR = 3_600_000;
const LAST = Date.parse('2026-03-06T11:00:00Z');
type View = ReturnType<typeof recordView>;
/** A view with nothing but what is given. */
const only = (...observations: Observation[]): View => ({ ...recordView({ asOf: AS_OF }), observations });
const rowsAt = (
  variable: Observation['variable'],
  values: readonly number[],
  more: Partial<Observation> = {},
) =>
  values.map((value, i) =>
    observation(variable, LAST - (values.length - 1 - i) * HOUR, value, {
      source: 'open-meteo',
      station: '',
      ...more,
    }),
  );
/** Air and rain over water of 8 degC. */
const signalsOf = (view: View) =>
  weatherPart(view, testLake, weatherOf(view, testLake), () => 8).signals(view.asOfMs);

describe('days that warm in a row', () => {
  it('are counted back from the last, over pauses of 0.2 K, until one cools', () => {
    expect(warmingDays([5, 6, 7, 8])).toBe(3);
    expect(warmingDays([8, 7, 6])).toBe(-2);
    expect(warmingDays([9, -1, 0, 0.2, 1])).toBe(2);
    expect(warmingDays([9, -1, 0, 0.21, 1])).toBe(3);
    expect(warmingDays([1, 2, 3, 2, 3])).toBe(1);
    expect(warmingDays([5, 6, 5])).toBe(-1);
    expect([warmingDays([]), warmingDays([5]), warmingDays([5, 5.1, 5])]).toEqual([0, 0, 0]);
  });
  it('and turn their sign with the series', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: -20, max: 30 }), { maxLength: 14 }), (days) => {
        expect(warmingDays(days.map((one) => -one))).toBe(0 - warmingDays(days));
        expect(Math.abs(warmingDays(days))).toBeLessThan(Math.max(1, days.length));
      }),
    );
  });
});

it('a mean of the last day needs five sixths of its hours', () => {
  const meanOf = (hours: number) =>
    signalsOf(only(...rowsAt('air_temp', new Array<number>(hours).fill(7), { kind: 'model' }))).airMean24hC
      ?.value;
  expect([meanOf(20), meanOf(19)]).toEqual([7, undefined]);
});
