// Levels that moved as no water does. Ground of the bounds: the fastest rise of a gauge that the trade tells of, about 8 m in
// 45 min (Guadalupe River, Texas, 4 July 2025), and 3.4 m (11 ft) in minutes below Buford Dam; both from memory.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { judgeSeries } from '../../src/record/quality/index.ts';
import { HOUR, hourly, row, START } from './rows.ts';

/** Hours from START whose level is doubted, by reason. */
function doubts(values: readonly number[], everyH = 1): Record<string, number[]> {
  const rows = values.map((value, i) => row({ variable: 'level', value, atMs: START + i * everyH * HOUR }));
  const found: Record<string, number[]> = {};
  for (const { atMs, doubt } of judgeSeries([rows])[0] ?? [])
    if (doubt !== undefined) (found[doubt.code] ??= []).push((atMs - START) / HOUR);
  return found;
}
const lake = (hours: number, levelM = 188): number[] =>
  Array.from({ length: hours }, (_, h) => levelM + 0.05 * Math.sin(h / 7) + 0.001 * h);
const inFeet = (levels: readonly number[]): number[] => levels.map((levelM) => levelM * 0.3048);
const range = (from: number, to: number): number[] => Array.from({ length: to - from }, (_, i) => from + i);

describe('levels in metres that are called feet', () => {
  it('are doubted from the first of them on, while they have lasted less than a day', () => {
    expect(doubts([...lake(72), ...inFeet(lake(6))])).toEqual({ 'doubt.levelStep': range(72, 78) });
    expect(doubts([...lake(72), ...inFeet(lake(24))])).toEqual({ 'doubt.levelStep': range(72, 96) });
  });

  it('are a new zero once they have lasted a day, with which nothing before compares', () => {
    expect(doubts([...lake(72), ...inFeet(lake(25))])).toEqual({ 'doubt.datumJump': range(0, 72) });
  });

  it('are left out between right ones, however long', () => {
    for (const hours of [3, 12, 40]) {
      expect(doubts([...lake(72), ...inFeet(lake(hours)), ...lake(30)])).toEqual({
        'doubt.levelStep': range(72, 72 + hours),
      });
      expect(doubts([...lake(72), ...inFeet(lake(hours)), ...lake(2)])).toEqual({
        'doubt.levelStep': range(72, 72 + hours),
      });
    }
  });

  it('are seen in a gauge of few metres too, by the rest before and after the step', () => {
    expect(doubts([...lake(72, 9), ...inFeet(lake(6, 9))])).toEqual({ 'doubt.levelStep': range(72, 78) });
  });

  it('cost the shorter part of a record that is younger than a day', () => {
    expect(doubts([...lake(10), ...inFeet(lake(4))])).toEqual({ 'doubt.levelStep': range(10, 14) });
    expect(doubts([...inFeet(lake(4)), ...lake(10)])).toEqual({ 'doubt.datumJump': range(0, 4) });
  });
});

describe('water that really moves is believed', () => {
  it.each([
    ['the fastest flood of a gauge, every quarter hour', 0.25, [0, 0.4, 2.5, 5.5, 8.2, 8.6, 8.5, 8]],
    ['the same flood, every hour', 1, [0, 0.2, 8.4, 9.3, 8, 6.5, 5, 4]],
    ['turbines below a dam', 0.25, [0, 0, 3.4, 3.5, 3.5, 3.5, 0.1, 0]],
    ['a gorge that rises for a day', 1, range(0, 24).map((h) => h * 0.9)],
  ])('%s', (_, everyH, levels) => {
    const before = new Array<number>(30 / everyH).fill(200);
    const found = doubts([...before, ...levels.map((level) => 200 + level)], everyH);
    expect(found['doubt.levelStep']).toBeUndefined();
    expect(found['doubt.datumJump']).toBeUndefined();
  });

  it('whatever it does by less than a tenth of the bound', () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: -1, max: 1, noNaN: true }), { maxLength: 80 }), (moves) => {
        let level = 200;
        const found = doubts(moves.map((move) => (level += move)));
        expect(found['doubt.levelStep']).toBeUndefined();
      }),
    );
  });

  it('after a silence it may stand much higher', () => {
    const rows = [
      ...hourly(lake(48), { variable: 'level' }),
      ...lake(6, 188 + 30).map((value, i) =>
        row({ variable: 'level', value, atMs: START + (72 + i) * HOUR }),
      ),
    ];
    expect((judgeSeries([rows])[0] ?? []).every(({ doubt }) => doubt === undefined)).toBe(true);
  });
});
