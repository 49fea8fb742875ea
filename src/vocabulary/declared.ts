import { PLACE, type PlaceId } from './places.ts';
import type { WaterBody } from './waters.ts';

/** What a water says of its places: exactly these, or what it has and has not besides what its kind usually has. */
export type DeclaredPlaces =
  | readonly PlaceId[]
  | { readonly has?: readonly PlaceId[] | undefined; readonly hasNot?: readonly PlaceId[] | undefined };

export const isPlaceList = (declared: DeclaredPlaces): declared is readonly PlaceId[] =>
  Array.isArray(declared);

/** A place that cannot be declared so: its kind of water never has it, or it stands under `has` and `hasNot`. */
export interface Misdeclared {
  readonly place: PlaceId;
  readonly why: 'never' | 'both';
  /** Where it stands inside the declaration. */
  readonly path: readonly (string | number)[];
}

/** @param water left out where it is not known: then nothing is never there */
export function misdeclared(declared: DeclaredPlaces, water: WaterBody | undefined): Misdeclared[] {
  const isList = isPlaceList(declared);
  const has = isList ? declared : (declared.has ?? []);
  const hasNot = isList ? [] : (declared.hasNot ?? []);
  return [
    ...has.flatMap((place, index): Misdeclared[] =>
      water === undefined || PLACE[place].on[water] !== 'never'
        ? []
        : [{ place, why: 'never', path: isList ? [index] : ['has', index] }],
    ),
    ...hasNot.flatMap((place, index): Misdeclared[] =>
      has.includes(place) ? [{ place, why: 'both', path: ['hasNot', index] }] : [],
    ),
  ];
}
