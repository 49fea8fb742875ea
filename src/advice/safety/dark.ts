import { CIVIL_TWILIGHT_DEG } from '../../science/index.ts';
import { HOUR_MS } from '../../units/time/index.ts';

interface SunHour {
  readonly fromMs: number;
  readonly toMs: number;
  readonly sunAltitudeDeg?: number;
}

/**
 * Hours of a fishing day outside civil light, h. One instant's sun stands for its hour.
 *
 * @returns undefined where the fishing hours or the light are not known
 */
export function darkHoursOf(
  hours: readonly SunHour[],
  fishing: { readonly fromMs: number; readonly toMs: number } | null,
): number | undefined {
  if (fishing === null || hours.every(({ sunAltitudeDeg }) => sunAltitudeDeg === undefined)) return undefined;
  return hours.reduce((sum, { fromMs, toMs, sunAltitudeDeg = 0 }) => {
    const within = Math.min(toMs, fishing.toMs) - Math.max(fromMs, fishing.fromMs);
    return sunAltitudeDeg < CIVIL_TWILIGHT_DEG && within > 0 ? sum + within / HOUR_MS : sum;
  }, 0);
}
