import { PLACE, PLACES, type PlaceId, type WaterBody } from '../../vocabulary/index.ts';

/** What a water says of its places: exactly these, or what it has and has not besides what its kind usually has. */
export type DeclaredPlaces =
  | readonly PlaceId[]
  | { readonly has?: readonly PlaceId[] | undefined; readonly hasNot?: readonly PlaceId[] | undefined };

const isList = (declared: DeclaredPlaces): declared is readonly PlaceId[] => Array.isArray(declared);

/** Kinds of place that a kind of water never has; a declaration of one of them is a mistake. */
export const neverOn = (water: WaterBody): readonly PlaceId[] =>
  PLACES.filter((place) => PLACE[place].on[water] === 'never');

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
  if (declared !== undefined && isList(declared)) return new Set(declared);
  const lacks = new Set<string>(declared?.hasNot);
  const has = new Set<string>([...(declared?.has ?? []), ...named]);
  return new Set(
    PLACES.filter((place) => {
      const presence = PLACE[place].on[water];
      return !lacks.has(place) && presence !== 'never' && (presence === 'usual' || has.has(place));
    }),
  );
}
