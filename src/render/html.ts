/** The page: MJML from the templates and the fragments, compiled once per lake and unit system. */
import type { BriefingPage, Messages } from '../words/index.ts';
import { zoneWords } from '../words/index.ts';
import { ThawlineError, type UnitSystem } from '../units/index.ts';
import { conditionsPart } from './conditionsTable.ts';
import { escapeHtml } from './escape.ts';
import * as part from './fragments.ts';
import { fillTemplate } from './template.ts';

/** A picture of the page, already drawn. */
export interface Picture {
  readonly id: 'ten-days' | 'cast' | 'hours';
  readonly cid: string;
  readonly alt: string;
  readonly png: Buffer;
}

/** Invisible mark in the compiled page where a reader's own links go. */
export const PERSONAL_MARK = '<!--personal-links-->';

/** MJML source of the page. */
export function pageMjml(
  doc: BriefingPage,
  units: UnitSystem,
  pictures: readonly Picture[],
  m: Messages,
  head: { readonly subject: string; readonly preheader: string },
): string {
  const zone = zoneWords(doc.issuedMs, doc.lake.zone);
  const grave = doc.safety.level >= 3;
  const image = (id: Picture['id']): string => {
    const found = pictures.find((picture) => picture.id === id);
    if (found === undefined) return '';
    return fillTemplate('picture', { source: `cid:${found.cid}`, alt: escapeHtml(found.alt) });
  };
  const section = (content: string, picture = ''): string =>
    content === '' ? '' : fillTemplate('section', { content, picture });
  const hazard = (content: string): string => fillTemplate('hazard', { content });
  const safety = part.safetyPart(doc, m);
  const body = [
    fillTemplate('masthead', { content: part.masthead(doc, zone, m) }),
    section(part.noticesPart(doc, m)),
    section(part.bottomLinePart(doc, m)),
    doc.safety.level > 1 ? hazard(safety) : section(safety),
    section(part.changedPart(doc, m)),
    section(conditionsPart(doc, units, m), image('ten-days')),
    grave ? hazard(part.safetyAgainPart(doc, m)) : '',
    section(part.positionsPart(doc, units, grave, m), image('hours')),
    doc.safety.level === 4 ? section(part.heading(m.headings.cast) + part.paragraph(m.cast.omitted)) : '',
    section(part.castPart(doc, units, 0, m), image('cast')),
    section(part.castPart(doc, units, 1, m)),
    section(part.tendencyPart(doc, m)),
    section(part.confidencePart(doc, m)),
    section(part.verificationPart(doc, m)),
    section(part.sourcesPart(doc, m)),
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
