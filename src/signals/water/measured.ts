/** The water as somebody or something measured it, for as long as the model cannot start. */
import { freshness, type RecordView } from '../../record/index.ts';
import { DAY_MS } from '../../units/time/index.ts';
import { impossible } from '../../water/index.ts';
import { Z80 } from '../../science/index.ts';
import type { SourceFact } from '../facts.ts';
import { gaugeSource, type GaugeSeries } from '../gauge.ts';
import type { Freshness } from '../types.ts';
import type { AnglerReading } from './readings.ts';

export interface MeasuredWater {
  readonly waterC: number;
  /** 80 % half-width for the mean of the day, K: of the thermometer and of what the water may have done since. */
  readonly halfC: number;
  readonly atMs: number;
  readonly freshness: Freshness;
  readonly source: SourceFact;
}

/**
 * How far a held value misses after a day, K; with time it grows as its root. Four public lake series, last reading held:
 * 0.59 K after one day, 1.22 with one a week, 2.83 with one a month (`bench/lake-accuracy.ts`).
 */
const HELD_SD_K = 0.65;
/** A hand thermometer is put in again on another day. */
const HAND_INTERVAL_S = 86_400;
/** Deeper ones may hang below the warm layer, m. */
const DEEPEST_M = 3;
const GAUGE_SD_K = 0.3;

/**
 * The newest believable temperature of the main lake that is not stale; null where there is none. It is told with its
 * own time and age.
 */
export function measuredWater(
  { asOfMs }: Pick<RecordView, 'asOfMs'>,
  thermometer: GaugeSeries | undefined,
  byHand: readonly AnglerReading[],
): MeasuredWater | null {
  const candidates = [
    ...(thermometer === undefined
      ? []
      : [
          {
            waterC: thermometer.lastValue,
            atMs: thermometer.lastMs,
            sdC: GAUGE_SD_K,
            depthM: thermometer.gauge.depthM ?? 1,
            freshness: thermometer.freshness,
            source: gaugeSource(thermometer),
          },
        ]),
    ...byHand.map(({ kept, water }) => ({
      waterC: water.waterC,
      atMs: kept.atMs,
      sdC: water.sdC,
      depthM: water.depthM,
      freshness: freshness(kept.atMs, asOfMs, HAND_INTERVAL_S),
      source: { code: 'anglerReading' } as const,
    })),
  ];
  const usable = candidates.filter(
    (one) =>
      one.freshness !== 'stale' &&
      one.atMs <= asOfMs &&
      one.depthM <= DEEPEST_M &&
      impossible(one.waterC, 'lake') === undefined,
  );
  const [first, ...others] = usable;
  if (first === undefined) return null;
  const newest = others.reduce((best, one) => (one.atMs >= best.atMs ? one : best), first);
  const { waterC, atMs, sdC } = newest;
  const heldK = HELD_SD_K * Math.sqrt((asOfMs - atMs) / DAY_MS);
  return {
    waterC,
    halfC: Z80 * Math.hypot(sdC, heldK),
    atMs,
    freshness: newest.freshness,
    source: newest.source,
  };
}
