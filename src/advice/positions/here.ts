import type { PositionRules } from '../../config/index.ts';
import { isPlaceList, PLACE, PLACES, type DeclaredPlaces, type WaterBody } from '../../vocabulary/index.ts';
import { isTrueOf, type Judged } from '../rules/truth.ts';

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

/** Those of them that are there on a day: what high water covers is a place only while it does, and what falls dry is none. */
export function standingOn(
  here: ReadonlySet<string>,
  { places }: PositionRules,
  day: Omit<Judged, 'places'>,
): ReadonlySet<string> {
  const gone = new Set<string>(
    places
      .filter(({ hereWhen, goneWhen }) => {
        const judged = { ...day, places: here };
        return !isTrueOf(hereWhen, judged) || (goneWhen !== undefined && isTrueOf(goneWhen, judged));
      })
      .map(({ id }) => id),
  );
  return new Set([...here].filter((place) => !gone.has(place)));
}
