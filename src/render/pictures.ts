/** The pictures of one briefing. Each is also in the text as numbers; none is the only carrier of anything. */
import type { BriefingPage, Messages } from '../words/index.ts';
import type { UnitSystem } from '../units/index.ts';
import { castFromTheSide } from './charts/cast.ts';
import { dayByHours } from './charts/hours.ts';
import { toPng } from './charts/png.ts';
import { tenDays, type Drawn } from './charts/tenDays.ts';
import type { Picture } from './html.ts';

export function drawPictures(doc: BriefingPage, units: UnitSystem, m: Messages): Picture[] {
  const first = doc.casts[0];
  const drawn: readonly (readonly [Picture['id'], Drawn | null])[] = [
    ['ten-days', tenDays(doc, units, m)],
    ['hours', doc.status === 'nil' ? null : dayByHours(doc, units, m)],
    ['cast', first === undefined ? null : castFromTheSide(first, units, m)],
  ];
  return drawn.flatMap(([id, picture]) =>
    picture === null
      ? []
      : [{ id, cid: `${id}.${doc.lake.id}.${units}@thawline`, alt: picture.alt, png: toPng(picture.svg) }],
  );
}
