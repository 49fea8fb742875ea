/** The page: MJML from the templates and the fragments, compiled once per lake and reader's view. */
import type { BriefingPage, Front, Words } from '../words/index.ts';
import { ThawlineError } from '../units/index.ts';
import { escapeHtml } from './escape.ts';
import { sectionHtml } from './fragments.ts';
import { frontPart } from './front.ts';
import type { PictureId, Section } from './sections.ts';
import { INLINE } from './style.ts';
import { fillTemplate } from './template.ts';

/** A picture of the page, already drawn. */
export interface Picture {
  readonly id: PictureId;
  readonly cid: string;
  /** What the text part says of it. */
  readonly said: string;
  readonly alt: string;
  readonly png: Buffer;
}

/** Invisible mark in the compiled page where a reader's own links go. */
export const PERSONAL_MARK = '<!--personal-links-->';

/** MJML source of the page. */
export function pageMjml(
  doc: BriefingPage,
  front: Front,
  sections: readonly Section[],
  pictures: readonly Picture[],
  words: Words,
  head: { readonly subject: string; readonly preheader: string },
): string {
  const image = (id: PictureId): string => {
    const found = pictures.find((picture) => picture.id === id);
    if (found === undefined) return '';
    return `<img src="cid:${found.cid}" alt="${escapeHtml(found.alt)}" width="552" style="${INLINE.picture}" />`;
  };
  const body = [
    fillTemplate('masthead', { content: frontPart(doc, front, words) }),
    ...sections.map((section) => {
      const content = sectionHtml(section, image);
      return fillTemplate(section.id === 'safety' && doc.safety.level >= 3 ? 'hazard' : 'section', {
        content,
      });
    }),
    ...doc.marks.map((mark) =>
      fillTemplate('section', { content: `<p class="warm" style="${INLINE.mark}">${escapeHtml(mark)}</p>` }),
    ),
  ];
  return fillTemplate('briefing', {
    language: escapeHtml(doc.language),
    title: escapeHtml(head.subject),
    preheader: escapeHtml(head.preheader),
    body: body.join('\n'),
  });
}

/**
 * Compiled page.
 *
 * @throws {ThawlineError} `internal` when a template does not compile: the sentence names the first fault
 */
export async function compilePage(mjml: string): Promise<string> {
  // Loaded when a page is made: it takes longer than all the other commands need to start.
  const { default: mjml2html } = await import('mjml');
  const { html, errors } = await mjml2html(mjml, {
    validationLevel: 'soft',
    keepComments: true,
    // Otherwise a web font is fetched from elsewhere for every family name the compiler happens to know.
    fonts: {},
  });
  const fault = errors[0];
  if (fault !== undefined) {
    throw new ThawlineError('internal', `A page template does not compile: ${fault.formattedMessage}`);
  }
  // Indentation is a tenth of the page, and mailbox providers clip long pages. Foreign text keeps its own by entities.
  return html.replace(/\n\s+/g, '\n');
}
