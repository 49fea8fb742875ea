import { Z80 } from '../../science/index.ts';
import type { MisfitBank } from './misfitBank.ts';

/** January to May (July to November south of the equator) the misfit scatters a little more. */
const SPRING_FACTOR = 1.1;
/** Right after a reading the fast misfit is less than its spread over a week suggests: share that fades over 2 days. */
const FRESH_SHARE = 0.08;

/**
 * Half-width of the 80 % interval.
 *
 * Without any reading a coarse band by water temperature and latitude, measured over lakes without calibration;
 * with readings what the filter says, scaled by how well its expectations have held so far.
 *
 * @returns K
 */
export function halfWidthC(
  filter: MisfitBank,
  day: { waterC: number; latDeg: number; dayOfYear: number; readingAgeDays: number | null },
): number {
  const age = day.readingAgeDays;
  if (age === null)
    return Math.hypot(unreadBandC(day.waterC, day.latDeg), Z80 * Math.sqrt(filter.forcingVar));
  return intervalFactor(day.latDeg, day.dayOfYear, age) * filter.halfWidthC(0, age);
}

/** What the filter's own interval is multiplied by on a day of the year, with a reading of this age. */
export function intervalFactor(latDeg: number, dayOfYear: number, readingAgeDays: number): number {
  const spring = (dayOfYear + (latDeg < 0 ? 184 : 0)) % 366 < 152 ? SPRING_FACTOR : 1;
  return spring * (1 - FRESH_SHARE * Math.exp(-readingAgeDays / 2));
}

function unreadBandC(waterC: number, latDeg: number): number {
  if (Math.abs(latDeg) < 42) return 1.8;
  if (waterC < 3) return 1;
  if (waterC < 8) return 1.29;
  return waterC < 18 ? 1.38 : 1.43;
}
