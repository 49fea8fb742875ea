import {
  clearSkyLongwaveWm2,
  longwaveUpWm2,
  saturationMmHg,
  saturationSlopeMmHgK,
  surfaceWind,
} from '../../science/index.ts';
import { within } from './dryAir.ts';
import type { WarmLayer } from './warmLayer.ts';

/** Wind at 2 m over wind at 10 m, power law with exponent 1/7. */
const WIND_2M = 0.2 ** (1 / 7);
/** Wind at 10 m where nobody measures it, m/s. */
const USUAL_WIND_MS = 3;
const ALBEDO = 0.07;
const KELVIN = 273.15;

/** One day over the water. */
export interface BalanceDay {
  readonly airC: number;
  readonly dewC: number;
  /** Global radiation, W/m2. */
  readonly sunWm2: number;
  /** At 10 m, m/s; NaN where it is not known. */
  readonly windMs: number;
  readonly windExcess: number;
}

/**
 * Water that follows the equilibrium temperature of the surface heat balance (Edinger, Duttweiler and Geyer 1968) as
 * fast as the fitted layer forgets. Evaporation goes by the vapour pressure at the water's own temperature, which is what
 * holds hot dry lakes down and no fitted line knows. The sky is clear: it is where the balance counts.
 *
 * Drier air never warms it: the day's step falls with the dew point and rises with the water.
 */
export class SurfaceBalance {
  constructor(
    private readonly layer: WarmLayer,
    public waterC: number,
  ) {}

  step(day: BalanceDay): void {
    const waterC = Math.min(50, Math.max(0, this.waterC));
    const windMs = Number.isNaN(day.windMs) ? USUAL_WIND_MS : Math.min(40, day.windMs);
    const { evaporationWm2MmHg, sensibleWm2K } = surfaceWind(windMs * WIND_2M);
    const upWm2 = longwaveUpWm2(waterC);
    const netWm2 =
      (1 - ALBEDO) * day.sunWm2 +
      clearSkyLongwaveWm2(within(day.airC), within(day.dewC)) -
      upWm2 -
      evaporationWm2MmHg * (saturationMmHg(waterC) - saturationMmHg(day.dewC)) -
      sensibleWm2K * (waterC - day.airC);
    const perK =
      (4 * upWm2) / (waterC + KELVIN) + evaporationWm2MmHg * saturationSlopeMmHgK(waterC) + sensibleWm2K;
    const share = 1 - Math.exp(-this.layer.ratePerDay(waterC, day.windExcess));
    this.waterC = Math.min(45, Math.max(0, waterC + (share * netWm2) / perK));
  }
}
