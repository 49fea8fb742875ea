/** Civil light ends here, degrees. */
const CIVIL_DEG = -6;
const HOUR_MS = 3_600_000;

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
    return sunAltitudeDeg < CIVIL_DEG && within > 0 ? sum + within / HOUR_MS : sum;
  }, 0);
}
