import type { LakeSite } from './types.ts';

/** Fitted constants of the layer that thins as the surface warms above 4 degC. */
export const WARM_LAYER = {
  volume: 0.8111,
  scale: 11.4491,
  depth: 0.9339,
  area: 0.111,
  mixedM: 2.0663,
  water: 0.2953,
  wind: 0.05,
} as const;

/** The layer that takes the heat up, by the depth of the lake and the warmth of its surface. */
export class WarmLayer {
  private readonly full: number;
  private readonly mixed: number;
  private readonly scale: number;

  /** @param site depth and area inside the model's range */
  constructor({ meanDepthM, areaKm2 }: Pick<LakeSite, 'meanDepthM' | 'areaKm2'>) {
    const a = WARM_LAYER;
    this.full = meanDepthM ** a.volume;
    this.mixed = Math.min(a.mixedM, meanDepthM) ** a.volume;
    this.scale = Math.max(1.5, a.scale * (meanDepthM / 10) ** -a.depth * (areaKm2 / 5) ** a.area);
  }

  /** Volume that a surface of this temperature moves, in the fitted unit. */
  volume(surfaceC: number): number {
    const thinning = surfaceC > 4 ? Math.exp((-WARM_LAYER.volume * (surfaceC - 4)) / this.scale) : 1;
    return Math.max(this.mixed, this.full * thinning);
  }

  /** Heat exchange per volume and day; wind above the usual quickens it. */
  static exchange(windExcess: number): number {
    const { water, wind } = WARM_LAYER;
    return Math.max(0.1 * water, water + wind * windExcess);
  }

  /** Relaxation rate of a surface of this temperature, 1/d. */
  ratePerDay(surfaceC: number, windExcess: number): number {
    return WarmLayer.exchange(windExcess) / this.volume(surfaceC);
  }
}
