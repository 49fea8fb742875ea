/** HTML of the page's sections. Inline styles carry the look; classes only serve dark mode. */
import type { MergedRow } from './conditions.ts';
import { escapeHtml, escapeVerbatim } from './escape.ts';
import { sourceLink } from './links.ts';
import { unbroken } from './present.ts';
import type { Item, PictureId, Section } from './items.ts';
import { COLOUR, INLINE } from './style.ts';

const say = (text: string): string => escapeHtml(unbroken(text));

/** A section with its pictures in their places. @param anchored its heading can be linked to */
export function sectionHtml(
  { id, heading, items }: Section,
  picture: (id: PictureId) => string,
  anchored: boolean,
): string {
  return `<h2${anchored ? ` id="${id}"` : ''} style="${INLINE.h2}">${say(heading)}</h2>${items.map((item) => itemHtml(item, picture)).join('')}`;
}

function itemHtml(item: Item, picture: (id: PictureId) => string): string {
  switch (item.kind) {
    case 'sub':
      return `<h3 style="${INLINE.h3}">${say(item.text)}</h3>`;
    case 'p':
      return `<p style="${INLINE.p}">${say(item.text)}</p>`;
    case 'small':
      return `<p class="slate" style="${INLINE.small}">${say(item.text)}</p>`;
    case 'label':
    case 'care':
      return `<p style="${INLINE.p}"><strong>${say(item.label)}:</strong> ${say(item.text)}</p>`;
    case 'verbatim':
      return `<blockquote style="${INLINE.quote}">${escapeVerbatim(item.text)}</blockquote>`;
    case 'list': {
      const tag = item.ordered ? 'ol' : 'ul';
      return `<${tag} style="${INLINE.list}">${item.items.map((line) => `<li>${say(line)}</li>`).join('')}</${tag}>`;
    }
    case 'source':
      return `<p class="slate" style="${INLINE.small}">${sourceLink(item.text, item.url)}</p>`;
    case 'rows':
      return rowsHtml(item.rows);
    case 'picture':
      return picture(item.id);
  }
}

/** Longest that stands beside its figure and not below it, characters. */
const BESIDE = 60;

const rowsHtml = (rows: readonly MergedRow[]): string =>
  `<table style="${INLINE.table}">${rows
    .map(
      ({ label, now, detail, stale }) =>
        `<tr><th scope="row" style="${INLINE.rowLabel}">${say(label)}</th>` +
        `<td style="${INLINE.rowCell}"><span${stale ? ` class="slate" style="color:${COLOUR.slate}"` : ` style="font-weight:700"`}>${say(now)}</span>` +
        (detail === ''
          ? ''
          : `${detail.length > BESIDE ? '<br />' : ' '}<span class="slate" style="${INLINE.rowDetail}">${say(detail)}</span>`) +
        '</td></tr>',
    )
    .join('')}</table>`;
