/** The pictures of one briefing. Each is also in the text as numbers; none is the only carrier of anything. */
import type { BriefingPage, Words } from '../words/index.ts';
import { castDrawing } from './charts/cast.ts';
import { dayClock, type ClockView } from './charts/dayClock.ts';
import { lakeMap } from './charts/lakeMap.ts';
import { tenDays, type Drawn } from './charts/tenDays.ts';
import type { Picture } from './html.ts';
import { cardCasts, isDrawn } from './cardSection.ts';

/** The drawings of a page, before they are made into pictures. */
export function drawings(
  doc: BriefingPage,
  view: ClockView,
  words: Words,
): readonly (readonly [Picture['id'], Drawn])[] {
  const casts = isDrawn(doc) ? cardCasts(doc) : [];
  const drawn: readonly (readonly [Picture['id'], Drawn | null])[] = [
    ['day', dayClock(doc, view, words)],
    ['map', lakeMap(doc, { ...view, width: 600 }, words)],
    ...casts.map((cast, i) => [`cast-${i + 1}`, castDrawing(cast, view.units, words)] as const),
    ['ten-days', tenDays(doc, view.units, words.page)],
  ];
  return drawn.flatMap(([id, picture]) => (picture === null ? [] : [[id, picture] as const]));
}

/** A picture as the page prints it, and what comes with it. */
export interface DrawnPicture {
  readonly picture: Picture;
  readonly svg: string;
}

/** The pictures of a page, as drawings. */
export const drawPictures = (doc: BriefingPage, view: ClockView, words: Words): DrawnPicture[] =>
  drawings(doc, view, words).map(([id, { svg, alt, said }]) => ({
    picture: { id, cid: `${id}.${doc.lake.id}.${view.units}@thawline`, alt, said: said ?? alt },
    svg,
  }));
