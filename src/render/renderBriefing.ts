import { isFacts, toPage, twinJson, wordsFor, type KeptDocument } from '../words/index.ts';
import type { UnitSystem } from '../units/index.ts';
import { drawPictures } from './pictures.ts';
import { compilePage, pageMjml } from './html.ts';
import { inUnits } from './present.ts';
import { shortForm, textPart } from './text.ts';

export interface ReaderView {
  readonly units: UnitSystem;
  /** `short` is the text-message form: no page and no pictures are made. */
  readonly form: 'full' | 'short';
  /** English when left out. */
  readonly language?: string;
}

export interface RenderedBriefing {
  readonly language: string;
  readonly subject: string;
  /** What a mailbox shows behind the subject: the bottom line. */
  readonly preheader: string;
  /** Whole page, below 80 kB; '' in the short form. */
  readonly html: string;
  /** 72 columns; in the short form the short text. */
  readonly text: string;
  /** At most 300 characters. */
  readonly short: string;
  /** Twin for programs: the facts in SI, and the sentences in the reader's language and units. */
  readonly json: string;
  readonly attachments: readonly {
    readonly cid: string;
    readonly filename: string;
    readonly contentType: string;
    readonly content: Buffer;
  }[];
}

/**
 * Page, text, short form, data and pictures of one briefing in one unit system. The same document gives the same
 * bytes. Render once per lake and unit system, then put in each reader's links (delivery).
 *
 * @throws {ThawlineError} `internal` when a template or a sentence is malformed
 */
export async function renderBriefing(document: KeptDocument, reader: ReaderView): Promise<RenderedBriefing> {
  const words = wordsFor(isFacts(document) ? (reader.language ?? 'en') : document.language);
  const m = words.page;
  const page = toPage(document, words);
  const doc = inUnits(page, reader.units);
  const mark = [doc.demo ? m.marks.demoShort : '', doc.preview ? m.marks.previewShort : ''].filter(Boolean);
  const head = mark.length === 0 ? '' : `[${mark.join(' ')}] `;
  const short = shortForm(doc, m);
  const common = {
    language: doc.language,
    subject: head + doc.subject,
    preheader: head + doc.bottomLine,
    short,
    json: twinJson(document, doc),
  };
  if (reader.form === 'short') return { ...common, html: '', text: `${short}\n`, attachments: [] };
  const pictures = drawPictures(doc, reader.units, m);
  return {
    ...common,
    html: await compilePage(pageMjml(doc, reader.units, pictures, m, common)),
    text: textPart(doc, reader.units, m),
    attachments: pictures.map(({ id, cid, png }) => ({
      cid,
      filename: `${id}.png`,
      contentType: 'image/png',
      content: png,
    })),
  };
}
