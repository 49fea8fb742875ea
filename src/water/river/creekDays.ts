import { isoDate } from '../../units/time/index.ts';
import { at } from '../series.ts';
import type { WeatherDay } from '../lake/types.ts';
import { runCreek } from './creek.ts';
import { riverForcing } from './forcing.ts';
import { CREEK } from './parameters.ts';

/**
 * Daily mean water of a creek between storms, from the air alone: about the year's mean that its ground water keeps,
 * which the latitude suggests and the air of the record teaches, with a share of the swing of the last day and week.
 * Size and slope are left out: among nine creeks of 1 to 2,600 km2 the damping went with neither, but with springs.
 *
 * @param weather in date order; days without air within ten days are bridged
 * @returns degC by date, 0 or more; none where nothing is known of the air
 * @see `bench/creek-accuracy.ts`
 */
export function creekDays(weather: readonly WeatherDay[], latDeg: number): ReadonlyMap<string, number> {
  if (!weather.some(({ airC }) => airC !== null)) return new Map();
  const forcing = riverForcing(weather, undefined);
  const { freeC } = runCreek(forcing, CREEK, latDeg);
  const found = new Map<string, number>();
  for (let j = 0; j < forcing.count; j++)
    if (forcing.dead[j] === 0) found.set(isoDate(forcing.firstDay + j), at(freeC, j));
  return found;
}
