import type { LakeSite } from './types.ts';
import { WARM_LAYER, WarmLayer } from './warmLayer.ts';

/** Fitted constants of the relaxation model whose mixed layer thins as the surface warms above 4 degC. */
const WARMTH_LAYER = {
  ...WARM_LAYER,
  c0: -0.0563,
  air: 0.2715,
  sun: 0.2967,
  dry: 0.05,
} as const;

/** Fitted constants of the two-layer model whose mixed layer thins with the difference to the deep water. */
const TWO_LAYER = {
  c0: -0.1338,
  air: 0.1972,
  water: 0.2176,
  sun: 0.2479,
  volume: 0.7366,
  scale: 9.2125,
  depth: 0.6609,
  area: 0.113,
  mixedM: 1.5962,
  deepDays: Math.exp(6.2697),
  overturnPerDay: 0.2,
} as const;

/** One day's forcing: the mean of yesterday and today. */
export interface DayForcing {
  readonly airC: number;
  readonly sun: number;
  readonly dryness: number;
  readonly windExcess: number;
}

const clamp = (value: number, low: number, high: number): number =>
  value < low ? low : value > high ? high : value;

/**
 * Two depth-scaled exchange models run side by side on weather alone; their mean is the estimate.
 * Heat exchange is linear in the water temperature, the layer that takes it up follows the depth of the lake,
 * and no constant belongs to a single lake.
 */
export class ExchangePair {
  /** Surface temperature of the first model, degC. */
  warmthC: number;
  /** Surface and deep temperature of the second model, degC. */
  surfaceC: number;
  deepC: number;
  /** Relaxation rate of the first model on the last day, 1/d, and its response to an air error, K/K/d. */
  ratePerDay = 0.05;
  airGain = 0.05;

  /** The layer of the first model. */
  readonly warmLayer: WarmLayer;

  private readonly layerFull: number;
  private readonly layerMixed: number;
  private readonly layerScale: number;
  private readonly depthM: number;

  constructor(site: LakeSite, startC: number) {
    const depthM = clamp(site.meanDepthM, 0.3, 300);
    const areaKm2 = clamp(site.areaKm2, 0.005, 100_000);
    this.depthM = depthM;
    this.warmLayer = new WarmLayer({ meanDepthM: depthM, areaKm2 });
    const c = TWO_LAYER;
    this.layerFull = depthM ** c.volume;
    this.layerMixed = Math.min(c.mixedM, depthM) ** c.volume;
    this.layerScale = Math.max(0.3, c.scale * (depthM / 10) ** -c.depth * (areaKm2 / 5) ** c.area);
    this.warmthC = this.surfaceC = this.deepC = startC;
  }

  get meanC(): number {
    return (this.warmthC + this.surfaceC) / 2;
  }

  step(day: DayForcing): void {
    this.stepWarmthLayer(day);
    this.stepTwoLayer(day);
  }

  private stepWarmthLayer(day: DayForcing): void {
    const a = WARMTH_LAYER;
    const t = this.warmthC;
    const volume = this.warmLayer.volume(t);
    const exchange = WarmLayer.exchange(day.windExcess);
    const flux =
      a.c0 +
      a.air * day.airC +
      a.sun * day.sun -
      a.water * t -
      a.dry * day.dryness +
      a.wind * day.windExcess * (day.airC - t - 4);
    this.ratePerDay = exchange / volume;
    this.airGain = a.air / volume;
    this.warmthC = clamp(t + flux / (volume + exchange / 2), 0, 45);
  }

  private stepTwoLayer(day: DayForcing): void {
    const c = TWO_LAYER;
    const t = this.surfaceC;
    const b = this.deepC;
    const difference = t < 4 && b <= 4 ? 0 : t - b;
    const thinning = difference > 0 ? Math.exp((-c.volume * difference) / this.layerScale) : 1;
    const volume = Math.max(this.layerMixed, this.layerFull * thinning);
    const flux = c.c0 + c.air * day.airC + c.sun * day.sun - c.water * t;
    let next = clamp(t + flux / (volume + c.water / 2), 0, 45);
    if (next > b && t < 4 && b <= 4) {
      // Spring overturn: below 4 degC warmed water is heavier and sinks.
      this.deepC = b + c.overturnPerDay * (Math.min(4, next) - b);
    } else if (next > b) this.deepC = b + (1 - Math.exp(-1 / c.deepDays)) * (next - b);
    else if (b > next) {
      // Autumn overturn: the cooled layer sinks and mixes with what lies below.
      const share = Math.min(1, volume ** (1 / c.volume) / this.depthM);
      next = next * share + b * (1 - share);
      this.deepC = next;
    }
    this.surfaceC = next;
  }
}
