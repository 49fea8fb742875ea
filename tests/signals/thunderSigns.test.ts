/** Signs of thunder at their bounds. */
import { describe, expect, it } from 'vitest';
import type { Observation } from '../../src/record/types.ts';
import { stormSign, weatherOf } from '../../src/signals/weather/index.ts';
import { observation, recordView, testLake } from '../helpers/weatherRecord.ts';

const AS_OF = '2026-03-06T11:15:00Z'; // 05:15 at the lake
const HOUR = 3_600_000;
const LAST = Date.parse('2026-03-06T11:00:00Z');
type View = ReturnType<typeof recordView>;
/** A view with nothing but what is given. */
const only = (...observations: Observation[]): View => ({ ...recordView({ asOf: AS_OF }), observations });

describe('signs of thunder', () => {
  const sign = (code: Record<number, number>, cape: number | null, rainMm = 0) => {
    const start = LAST;
    const rows = [
      ...[-4, -3, -2, -1, 0, 1, 2, 3, 4].map((h) =>
        observation('weather_code', start + h * HOUR, code[h] ?? 3, { kind: 'forecast' }),
      ),
      ...(cape === null ? [] : [observation('cape', start, cape, { kind: 'forecast' })]),
      observation('rain', start + HOUR, rainMm, { kind: 'forecast', periodS: 3600 }),
    ];
    return stormSign(weatherOf(only(...rows), testLake).table, start);
  };
  it('are the model’s own storm at either end of the hour, or one within two hours of it', () => {
    expect([sign({ 0: 95 }, null), sign({ 1: 17 }, null)]).toEqual([1, 1]);
    expect([
      sign({ [-1]: 95 }, null),
      sign({ [-2]: 96 }, null),
      sign({ 2: 95 }, null),
      sign({ 3: 95 }, null),
    ]).toEqual([0.5, 0.5, 0.5, 0.5]);
    expect([sign({ [-3]: 95 }, null), sign({ 4: 95 }, null)]).toEqual([0, 0]);
  });
  // Classes of the United States National Weather Service: strong from 1000 J/kg, extreme from 2500 (from memory).
  it('or air of much energy, of less where a shower sets it free', () => {
    expect([
      sign({}, 2499),
      sign({}, 2500),
      sign({}, 999, 1),
      sign({}, 1000, 0.2),
      sign({}, 1000, 0.1),
    ]).toEqual([0, 0.25, 0, 0.25, 0]);
  });
  it('and none are known where neither is', () => {
    expect(stormSign(weatherOf(only(), testLake).table, LAST)).toBeUndefined();
  });
});
