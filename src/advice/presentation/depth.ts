import type { LureClass, LureSettings } from '../../config/index.ts';
import { along } from './curves.ts';

/**
 * Depth a lure runs on this cast, line and speed, as a multiple of the depth it is rated for.
 *
 * Power laws in cast length and line diameter with exponents from the settings, times a factor for nylon and one for
 * speed. Unvalidated: published dive data for these lures were not found.
 *
 * @param castLengthM length of the cast, m, positive
 * @param diameterMm  line diameter, mm, positive
 * @param speedMs     speed of the lure, m/s
 */
export function depthFactor(
  lure: LureClass,
  castLengthM: number,
  diameterMm: number,
  speedMs: number,
  settings: LureSettings,
): number {
  const cast = (castLengthM / settings.referenceCastM) ** settings.castExponent;
  const line = (diameterMm / settings.referenceDiameterMm) ** settings.diameterExponent;
  const material = lure.line.material === 'nylon' ? along(settings.nylonDepthFactor, lure.depthM[1]) : 1;
  const speed = lure.depthBySpeed === undefined ? 1 : along(lure.depthBySpeed, speedMs);
  return cast * line * material * speed;
}
