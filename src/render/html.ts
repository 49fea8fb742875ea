/** The page: what is printed in the templates, made of the fragments once per lake and reader's view. */
import type { BriefingPage, Front, Words } from '../words/index.ts';
import type { BlockTemplate, PageParts } from './compiled.ts';
import { escapeHtml } from './escape.ts';
import { sectionHtml } from './fragments.ts';
import { frontPart } from './front.ts';
import type { Detail, PictureId, Section } from './items.ts';
import { INLINE } from './style.ts';

/** A picture of the page. */
export interface Picture {
  readonly id: PictureId;
  readonly cid: string;
  /** What the text part says of it. */
  readonly said: string;
  readonly alt: string;
}

/** Invisible mark in the compiled page where a reader's own links go. */
export const PERSONAL_MARK = '<!--personal-links-->';

/** What the templates are filled with. */
export function pageParts(
  doc: BriefingPage,
  front: Front,
  sections: readonly Section[],
  pictures: readonly Picture[],
  words: Words,
  head: { readonly subject: string; readonly preheader: string; readonly detail: Detail },
): PageParts {
  const image = (id: PictureId): string => {
    const found = pictures.find((picture) => picture.id === id);
    if (found === undefined) return '';
    return `<img class="sheet" src="cid:${found.cid}" alt="${escapeHtml(found.alt)}" width="552" style="${INLINE.picture}" />`;
  };
  const templateOf = (section: Section): BlockTemplate =>
    section.id === 'safety' && doc.safety.level >= 3 ? 'hazard' : 'section';
  return {
    language: escapeHtml(doc.language),
    title: escapeHtml(head.subject),
    preheader: escapeHtml(head.preheader),
    blocks: [
      { template: 'masthead', content: frontPart(doc, front, words) },
      ...sections.map((section) => ({
        template: templateOf(section),
        content: sectionHtml(section, image, head.detail === 'web'),
      })),
      ...doc.marks.map((mark) => ({
        template: 'section' as const,
        content: `<p class="warm" style="${INLINE.mark}">${escapeHtml(mark)}</p>`,
      })),
    ],
  };
}
