/** Which kind of place, or which named place of the lake, a word means. */
import type { LakeConfig } from '../config/index.ts';
import type { OutingPlace } from '../record/index.ts';
import { isIdOf, PLACE, type PlaceId } from '../vocabulary/index.ts';

const plain = (text: string): string =>
  text
    .trim()
    .toLowerCase()
    .replace(/[\s_-]+/g, ' ');

/** Named pockets and points of the lake with their kind of place. */
export function namedPlaces(lake: Pick<LakeConfig, 'pockets' | 'points'>): OutingPlace[] {
  return [
    ...lake.pockets.map(({ name }): OutingPlace => ({ kind: 'pocket', name })),
    ...lake.points.map(({ name, place }): OutingPlace => ({ kind: place, name })),
  ];
}

/** Kinds of place that this water can have. */
export const kindsOf = (lake: Pick<LakeConfig, 'waterBody'>): PlaceId[] =>
  Object.keys(PLACE).filter(
    (kind): kind is PlaceId => isIdOf(PLACE, kind) && PLACE[kind].on[lake.waterBody] !== 'never',
  );

/** @returns null where the lake has neither a place of that name nor that kind of place */
export function placeNamed(
  word: string,
  lake: Pick<LakeConfig, 'pockets' | 'points' | 'waterBody'>,
): OutingPlace | null {
  const wanted = plain(word);
  const pocket = lake.pockets.find(({ id }) => plain(id) === wanted);
  if (pocket !== undefined) return { kind: 'pocket', name: pocket.name };
  const named = namedPlaces(lake).find(({ name = '' }) => plain(name) === wanted);
  if (named !== undefined) return named;
  const kind = kindsOf(lake).find((id) => plain(id) === wanted);
  return kind === undefined ? null : { kind };
}
