import { at } from '../series.ts';
import type { RiverForcing } from './forcing.ts';

/** Number of features a misfit may depend on, after the constant. */
export const FEATURES = 11;

/**
 * What the misfit of a day may depend on, day by day: annual wave and its half, air of days and of weeks against
 * slower means, log flow ratio and its season, and the day of rest, when many dams hold their water. Causal; a start forgets the air before it.
 *
 * @returns FEATURES values a day, one day after the other
 */
export function misfitFeatures({ firstDay, count, doy, airC, ratio, starts }: RiverForcing): Float64Array {
  const rows = new Float64Array(count * FEATURES);
  const memoryDays = [2, 4, 20, 40] as const;
  let means = memoryDays.map(() => 0);
  for (let j = 0; j < count; j++) {
    const air = at(airC, j);
    means = starts.has(j)
      ? means.map(() => air)
      : means.map((mean, i) => mean + (1 - Math.exp(-1 / (memoryDays[i] ?? 1))) * (air - mean));
    const [days2 = air, days4 = air, days20 = air, days40 = air] = means;
    const angle = (2 * Math.PI * at(doy, j)) / 365.25;
    const cos = Math.cos(angle);
    const sin = Math.sin(angle);
    const flow = Math.log(at(ratio, j));
    rows.set(
      [
        cos,
        sin,
        Math.cos(2 * angle),
        Math.sin(2 * angle),
        air - days2,
        days2 - days20,
        days4 - days40,
        flow,
        flow * cos,
        flow * sin,
        restfulness(firstDay + j),
      ],
      j * FEATURES,
    );
  }
  return rows;
}

/** 1 on a Sunday, half on a Saturday. */
function restfulness(dayNumber: number): number {
  const weekday = (((dayNumber + 4) % 7) + 7) % 7;
  return weekday === 0 ? 1 : weekday === 6 ? 0.5 : 0;
}
