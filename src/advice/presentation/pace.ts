import type { LureClass, LureSettings } from '../../config/rulesLures.ts';
import { quantity } from '../../units/index.ts';
import { along, clamp, ramp } from './curves.ts';
import type { PaceWater } from './water.ts';

export interface Pace {
  readonly speedMs: number;
  readonly lowMs: number;
  readonly highMs: number;
}

/** Speed of the lure through the water: the temperature's, by way of working it, within what the class bears. */
export function paceOf(lure: LureClass, water: PaceWater, settings: LureSettings): Pace {
  const [slowest, fastest] = lure.speedMs;
  const at = (waterC: number): number =>
    clamp(along(settings.speedTable, waterC) * settings.speedShare[lure.family], slowest, fastest);
  const speedMs = at(water.waterC);
  return {
    speedMs,
    lowMs: at(water.lowC) * (1 - settings.speedSpread),
    highMs: at(water.highC) * (1 + settings.speedSpread),
  };
}

/** Pause, s: from the table for a suspending lure, else within the class's range, longest in the coldest water. */
export function pauseOf(lure: LureClass, water: PaceWater, settings: LureSettings): number {
  const [shortest, longest] = lure.pauseS;
  if (lure.family === 'suspending') {
    return clamp(along(settings.pauseTable, water.waterC), settings.pauseTable.at(-1)?.[1] ?? 0, longest);
  }
  const cold = ramp(water.waterC, settings.pauseToC, settings.pauseFromC);
  return shortest + (longest - shortest) * cold;
}

export function pauseWords(lure: LureClass, pauseS: number): string {
  if (pauseS < 0.75) {
    return lure.family === 'diving' || lure.family === 'sinking'
      ? 'Keep it moving; stop only when it strikes something.'
      : 'Hardly pause; keep a steady rhythm.';
  }
  const seconds = quantity('seconds', pauseS);
  switch (lure.pauseStyle) {
    case 'stop':
      return `Stop for ${seconds} near the bottom, then start again slowly.`;
    case 'drop':
      return `Stop winding now and then and let it drop for ${seconds}.`;
    case 'hang':
      return `Pull once or twice, then leave it hanging for ${seconds} on slack line.`;
    case 'rest':
      return `Move it a little, then let it lie for ${seconds}.`;
    case 'float':
      return `Let it lie for ${seconds} between moves.`;
    case 'hold':
      return `Hold it still for ${seconds} after each lift and fall.`;
  }
}
