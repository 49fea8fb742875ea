/** What the runoff of the last days did to a pocket: how much of it ran in, where it went, how long it lasts. */
import { item } from '../../units/index.ts';
import type { PocketState } from '../../water/pocket/index.ts';
import type { RanIn, RunoffWarmth } from '../facts.ts';
import { sum } from '../figure.ts';
import type { SimulatedPocket } from './runs.ts';

/** Below this what runoff does to a temperature is gone; as in the pocket model, K. */
const EFFECT_K = 0.3;
/** Runoff this near to the lake is called neither warmer nor colder, K. */
const RUNOFF_K = 0.5;
/** Mean of floating (+1) and sinking (-1) from which runoff is said to have done the one or the other. */
const MOSTLY = 0.5;
/** Below this, warmer water can be the heavier one and needs no mud to sink, degC. */
const DENSEST_C = 5;

export interface RunoffStory {
  readonly ran: RanIn;
  /** Time until half of its greatest effect in the hours left is gone, ms; null where that is not in sight. */
  readonly halvedMs: number | null;
}

/**
 * @param left    hours of the fishing day that are left, at least one
 * @param sinceMs from when runoff counts
 */
export function runoffOf(
  { run, freeRun }: SimulatedPocket,
  left: readonly PocketState[],
  sinceMs: number,
  nowMs: number,
): RunoffStory {
  const flowing = run.hours.flatMap((hour) =>
    hour.atMs > sinceMs && hour.atMs <= nowMs && hour.inflowC !== null
      ? [{ ...hour, inflowC: hour.inflowC }]
      : [],
  );
  const volume = sum(flowing.map(({ inflowM3s }) => inflowM3s));
  const mean = (value: (hour: (typeof flowing)[number]) => number): number =>
    volume > 0 ? sum(flowing.map((hour) => hour.inflowM3s * value(hour))) / volume : 0;
  const mainC = mean((hour) => hour.surfaceC - hour.minusMainC);
  const minusMainC = mean((hour) => hour.inflowC) - mainC;
  // Not known where hardly any came: then nothing sinks or floats.
  const floats = run.buoyancy ?? 0;
  const warmth: RunoffWarmth =
    minusMainC > RUNOFF_K
      ? floats <= -MOSTLY && mainC > DENSEST_C
        ? 'warmerMuddy'
        : 'warmer'
      : minusMainC < -RUNOFF_K
        ? 'colder'
        : 'alike';

  // Rain that never came moved nothing.
  const { rainFallen } = freeRun.effects;
  const kelvinAt = (i: number): number =>
    rainFallen === null
      ? 0
      : Math.max(Math.abs(item(rainFallen.surfaceK, i)), Math.abs(item(rainFallen.meanK, i)));
  const firstMs = left[0]?.atMs ?? nowMs;
  const effect = run.hours.flatMap(({ atMs }, i) => (atMs < firstMs ? [] : [{ atMs, kelvin: kelvinAt(i) }]));
  const peak = effect
    .slice(0, left.length)
    .reduce((best, one) => (one.kelvin > best.kelvin ? one : best), { atMs: firstMs, kelvin: 0 });
  const halved = effect.find(({ atMs, kelvin }) => atMs > peak.atMs && kelvin <= peak.kelvin / 2);
  return {
    ran: {
      share: run.renewedShare(sinceMs, nowMs),
      warmth,
      went: floats <= -MOSTLY ? 'sank' : floats >= MOSTLY ? 'floated' : undefined,
      lasts: peak.kelvin >= EFFECT_K,
      mattered: peak.kelvin >= EFFECT_K || run.halfLifeH !== null,
    },
    halvedMs: halved === undefined ? null : halved.atMs - nowMs,
  };
}
