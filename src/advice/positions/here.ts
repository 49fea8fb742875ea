import { isPlaceList, PLACE, PLACES, type DeclaredPlaces, type WaterBody } from '../../vocabulary/index.ts';

/** Kinds of place that are ranked where nobody declared any: the usual and the likely ones, and what is named. */
export const likelyOn = (water: WaterBody, named: readonly string[] = []): ReadonlySet<string> =>
  new Set(
    PLACES.filter((place) => {
      const presence = PLACE[place].on[water];
      return (
        presence === 'usual' || presence === 'likely' || (presence === 'declared' && named.includes(place))
      );
    }),
  );

/** Kinds of place this water has: the usual ones of its kind, and what is declared or named. */
export function placesHere(
  water: WaterBody,
  declared: DeclaredPlaces | undefined,
  named: readonly string[] = [],
): ReadonlySet<string> {
  if (declared !== undefined && isPlaceList(declared)) return new Set(declared);
  const lacks = new Set<string>(declared?.hasNot);
  const has = new Set<string>([...(declared?.has ?? []), ...named]);
  return new Set(
    PLACES.filter((place) => {
      const presence = PLACE[place].on[water];
      return !lacks.has(place) && presence !== 'never' && (presence === 'usual' || has.has(place));
    }),
  );
}
