/** How the lake has warmed or cooled, each span with how sure that is. */
import type { SignalId, SignalReport } from '../signals/types.ts';
import { expandQuantities, quantity } from '../units/placeholder.ts';
import type { Messages } from '../words/index.ts';

const SPANS: readonly (readonly [SignalId, number])[] = [
  ['waterChange3dC', 3],
  ['waterChange7dC', 7],
  ['waterChange30dC', 30],
];

/** A change that prints as nothing in one of the unit systems is none to a reader. */
const printsAsZero = (changeC: number): boolean =>
  (['us', 'metric'] as const).some(
    (units) => !/[1-9]/.test(expandQuantities(quantity('temperatureDifference', changeC), units)),
  );

/**
 * `+1 °F in 3 days (unsure), +3 °F in 7 (clear).` A change is clear when its 80 % interval leaves out zero.
 *
 * @returns undefined where no span is known
 */
export function waterChangeWords({ conditions }: SignalReport, m: Messages): string | undefined {
  const known = SPANS.flatMap(([id, days]) => {
    const change = conditions.signals[id];
    return change === undefined || change.freshness === 'stale' ? [] : [{ change, days }];
  });
  if (known.length === 0) return undefined;
  const told = known.filter(({ change }) => !printsAsZero(change.value));
  if (told.length === 0) return m.waterChange.none(known.map(({ days }) => days));
  const parts = told.map(({ change: { value, low, high }, days }, i) => {
    const isClear = low !== undefined && high !== undefined && (low > 0 || high < 0);
    return m.waterChange.part(quantity('temperatureDifference', value, true), days, isClear, i === 0);
  });
  return m.waterChange.sentence(parts.join(m.waterChange.join));
}
