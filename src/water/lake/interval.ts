import { SITE_VAR, type MisfitFilter } from './misfit-filter.ts';

/** Half-width of an 80 % interval in standard deviations of a normal distribution. */
const Z80 = 1.2816;
/** January to May (July to November south of the equator) the misfit scatters a little more. */
const SPRING_FACTOR = 1.1;

/**
 * Half-width of the 80 % interval.
 *
 * Without any reading a coarse band by water temperature and latitude, measured over lakes without calibration;
 * with readings what the filter says, scaled by how well its expectations have held so far.
 *
 * @returns K
 */
export function halfWidthC(
  filter: MisfitFilter,
  day: { waterC: number; latDeg: number; dayOfYear: number; read: boolean },
): number {
  if (!day.read) return Math.hypot(unreadBandC(day.waterC, day.latDeg), Z80 * Math.sqrt(filter.forcingVar));
  const spring = (day.dayOfYear + (day.latDeg < 0 ? 184 : 0)) % 366 < 152 ? SPRING_FACTOR : 1;
  return spring * Z80 * Math.sqrt(filter.scale * filter.misfitVar + SITE_VAR);
}

function unreadBandC(waterC: number, latDeg: number): number {
  if (Math.abs(latDeg) < 42) return 2.3;
  if (waterC < 3) return 1.15;
  if (waterC < 8) return 1.5;
  return waterC < 18 ? 1.6 : 1.65;
}
