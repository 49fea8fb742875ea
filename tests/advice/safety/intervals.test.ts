// A number is judged at the worse end of its interval: what may be is guarded against like what is.
import { describe, expect, it } from 'vitest';
import { judgeSafety } from '../../../src/advice/safety/index.ts';
import type { SafetyQuantity } from '../../../src/config/rulesSafety.ts';
import type { Figure, SignalId } from '../../../src/signals/types.ts';
import { CALM, CHECKED, conditions, table } from './day.ts';

type Given = number | Pick<Figure, 'value' | 'low' | 'high'>;

/** Level above usual care of every row that goes by one of the quantities, alone or in its group. */
function levels(signal: SignalId, given: Given, quantities: readonly SafetyQuantity[]): Map<string, number> {
  const day = conditions({ ...CALM, [signal]: given });
  // Row by row, so that none covers another and none is folded into a group.
  return new Map(
    table.hazards
      .filter(({ quantity }) => quantities.includes(quantity))
      .map(({ covers: _, group: __, ...row }) => {
        const { hazards } = judgeSafety(day, { ...table, hazards: [row], combinations: [] }, CHECKED);
        const level = hazards.find(({ id }) => id === row.id)?.level ?? 1;
        return [row.id, level];
      }),
  );
}

type Case = readonly [SignalId, number, number, readonly SafetyQuantity[]];

const RISING: readonly Case[] = [
  ['windMaxMs', 3, 16, ['windMs', 'waveM']],
  ['windMs', 3, 16, ['windMs', 'waveM']],
  ['gustMs', 5, 25, ['gustMs']],
  ['thunderPct', 0, 90, ['thunderPct']],
  ['level24hM', 0.02, 3, ['rise24hM']],
  ['level72hM', 0.02, 5, ['rise72hM']],
  ['levelNext24hM', 0, 3, ['riseNext24hM']],
  ['levelRateMPerH', 0, 0.6, ['riseRateMPerH']],
  ['level6hM', 0, 3, ['riseRateMPerH']],
  ['levelVsNormalM', 0, 6, ['aboveNormalM']],
  ['dischargeRatio', 1, 20, ['dischargeRatio']],
  ['generationOn', 0, 1, ['generationOn']],
  ['currentMs', 0, 3, ['currentMs']],
  ['rain72Mm', 0, 200, ['rain72Mm']],
  ['rainNext24Mm', 0, 200, ['rainNext24Mm']],
];
const FALLING: readonly Case[] = [
  ['waterC', 23, 3, ['waterC']],
  ['level24hM', 0.02, -3, ['fall24hM']],
  ['levelRateMPerH', 0, -0.6, ['fallRateMPerH']],
  ['level6hM', 0, -3, ['fallRateMPerH']],
  ['levelVsNormalM', 0, -6, ['belowNormalM']],
  ['clarityM', 3, 0.05, ['clarityM']],
  ['airMinLastNightC', 18, -12, ['nightLowC']],
];

describe('an interval that reaches a danger', () => {
  it.each(RISING)('counts as the danger: %s of %d that may be %d', (signal, harmless, bad, quantities) => {
    const may = levels(signal, { value: harmless, low: harmless, high: bad }, quantities);
    expect(may).toEqual(levels(signal, bad, quantities));
    // The other end is no danger of this kind.
    const none = levels(signal, { value: harmless, low: harmless, high: harmless }, quantities);
    expect(
      levels(signal, { value: harmless, low: harmless - (bad - harmless), high: harmless }, quantities),
    ).toEqual(none);
  });
  it.each(FALLING)('counts as the danger: %s of %d that may be %d', (signal, harmless, bad, quantities) => {
    const may = levels(signal, { value: harmless, low: bad, high: harmless }, quantities);
    expect(may).toEqual(levels(signal, bad, quantities));
    const none = levels(signal, { value: harmless, low: harmless, high: harmless }, quantities);
    expect(
      levels(signal, { value: harmless, low: harmless, high: harmless + (harmless - bad) }, quantities),
    ).toEqual(none);
  });
  it('is a test of something: each of these numbers has a row that it can raise', () => {
    for (const [signal, harmless, bad, quantities] of [...RISING, ...FALLING]) {
      const rows = table.hazards.filter(({ quantity }) => quantities.includes(quantity));
      const raised = [...levels(signal, bad, quantities)].filter(([, level]) => level > 1);
      const calm = [...levels(signal, harmless, quantities)].filter(([, level]) => level > 1);
      expect(calm, signal).toEqual([]);
      if (rows.length > 0) expect(raised.length, signal).toBeGreaterThan(0);
    }
  });
});
