import type { SafetyHour } from './types.ts';

/** From here fog forms in still air, percent; little wind, m/s; low sun, degrees (common practice, no source). */
const SATURATED_PCT = 96;
const STILL_MS = 2.5;
const LOW_SUN_DEG = 15;
/** Steam fog: air this much colder than the water, K (from memory). */
const STEAM_C = 12;

const isFoggy = (point: SafetyHour, waterC: number | undefined): boolean => {
  const { airC, humidityPct, windMs, sunAltitudeDeg, fogCode } = point;
  if (fogCode === 1) return true;
  if (windMs === undefined || windMs > STILL_MS || (sunAltitudeDeg ?? 90) > LOW_SUN_DEG) return false;
  const steam = airC !== undefined && waterC !== undefined && waterC - airC >= STEAM_C;
  return steam || (humidityPct !== undefined && humidityPct >= SATURATED_PCT);
};

/** Hours of the day in which fog is likely, h. */
export function fogHours(hours: readonly SafetyHour[], waterC: number | undefined): number {
  return hours.filter((point) => isFoggy(point, waterC)).length;
}
