/** What makes a pocket differ from the lake at an hour, by the model's runs with and without each water. */
import type { PocketState, Shift } from '../../water/pocket/index.ts';
import { item } from '../../units/index.ts';
import type { PocketCause } from '../facts.ts';
import type { SimulatedPocket } from './runs.ts';

/** Kelvin that each cause adds to the surface at an hour; together they are the difference from the lake. */
export function partsOf(pocket: SimulatedPocket, hour: PocketState): Record<PocketCause, number> {
  // Both runs are of the same hours: one that is missing from the other is a fault, and throws.
  const i = pocket.freeRun.hours.findIndex(({ atMs }) => atMs === hour.atMs);
  const freeK = item(pocket.freeRun.hours, i).minusMainC;
  const { rainFallen, rainAhead, baseFlow } = pocket.freeRun.effects;
  // No shift: that water never came, and moved nothing.
  const at = (shift: Shift | null): number => (shift === null ? 0 : item(shift.surfaceK, i));
  const [runoff, ahead, stream] = [at(rainFallen), at(rainAhead), at(baseFlow)];
  return {
    readings: hour.minusMainC - freeK,
    runoff,
    rainAhead: ahead,
    stream,
    air: freeK - runoff - ahead - stream,
  };
}

/** The causes, greatest first, that together make at least half of the difference: one, where one does. */
export function causesOf(pocket: SimulatedPocket, hour: PocketState): PocketCause[] {
  const shares = Object.entries(partsOf(pocket, hour))
    .map(([cause, kelvin]) => ({ cause: cause as PocketCause, share: kelvin / hour.minusMainC }))
    .sort((a, b) => b.share - a.share);
  const causes: PocketCause[] = [];
  let explained = 0;
  for (const { cause, share } of shares) {
    if (explained >= 0.5) break;
    causes.push(cause);
    explained += share;
  }
  return causes;
}
