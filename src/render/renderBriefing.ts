import {
  isFacts,
  languageOf,
  toPage,
  twinJson,
  wordsFor,
  type BriefingPage,
  type KeptDocument,
  type Words,
} from '../words/index.ts';
import { ThawlineError, type UnitSystem } from '../units/index.ts';
import type { ClockView } from './charts/dayClock.ts';
import { toPng } from './charts/png.ts';
import { clockOf, type ClockStyle } from './clock.ts';
import { pageOfParts } from './compiled.ts';
import { pageParts } from './html.ts';
import { drawPictures, type DrawnPicture } from './pictures.ts';
import { inUnits } from './present.ts';
import { WHOLE, type Detail, type Extent, type Section } from './items.ts';
import { fittingMail } from './mailLength.ts';
import { inClockAll, sectionsOf } from './sections.ts';
import { cardText, preheader, shortForm, textPart } from './text.ts';

export interface ReaderView {
  readonly units: UnitSystem;
  /** `short` is front and safety as text: no page and no pictures are made. */
  readonly form: 'full' | 'short';
  /** `web` prints what a mail of 700 words leaves out. */
  readonly detail?: Detail;
  /** Made unless false: who prints words or page alone has no use for them, and they take longer than all else. */
  readonly pictures?: boolean;
  /** That of the lake when left out. */
  readonly language?: string;
  /** That of the lake when left out, else the one that goes with the units. */
  readonly clock?: ClockStyle;
}

export interface RenderedBriefing {
  readonly language: string;
  readonly subject: string;
  /** What a mailbox shows behind the subject: the first block, or the danger from level 3; at most 100 characters. */
  readonly preheader: string;
  /** Whole page, below 80 kB; '' in the short form. */
  readonly html: string;
  /** 72 columns; in the short form the short text. */
  readonly text: string;
  /** Front and safety, at most 250 words. */
  readonly short: string;
  /** Six lines to send to a partner as a message. */
  readonly card: string;
  /**
   * Twin for programs: the facts in SI, and the sentences in the reader's language and units. Made when it is asked for:
   * looking it over takes longer than the page, and a mail has none.
   *
   * @throws {ThawlineError} `internal` naming the first field that is not as the schema has it
   */
  readonly json: string;
  readonly attachments: readonly {
    readonly cid: string;
    readonly filename: string;
    readonly contentType: string;
    readonly content: Buffer;
  }[];
}

/** A page as it is printed in any length, before its words are chosen by it. */
interface Prepared {
  readonly words: Words;
  /** In the reader's units and clock. */
  readonly doc: BriefingPage;
  readonly front: NonNullable<BriefingPage['front']>;
  readonly view: ClockView;
  readonly common: Pick<RenderedBriefing, 'language' | 'subject' | 'preheader' | 'short' | 'card'>;
  readonly twin: () => string;
}

function prepared(document: KeptDocument, reader: ReaderView): Prepared {
  const words = wordsFor(isFacts(document) ? (reader.language ?? languageOf(document)) : document.language);
  const m = words.page;
  const { units } = reader;
  const clock = reader.clock ?? clockOf(units, document.lake.clock);
  const doc = inUnits(toPage(document, words), units, clock);
  const { front } = doc;
  if (front === undefined) throw new ThawlineError('internal', 'The page has no front.');
  const mark = [doc.demo ? m.marks.demoShort : '', doc.preview ? m.marks.previewShort : ''].filter(Boolean);
  const head = mark.length === 0 ? '' : `[${mark.join(' ')}] `;
  const common = {
    language: doc.language,
    subject: head + doc.subject,
    preheader: head + preheader(front, doc.safety.level),
    short: shortForm(doc, front, words),
    card: cardText(doc, front, words),
  };
  return { words, doc, front, view: { units, clock }, common, twin: () => twinJson(document, doc) };
}

/** Its pages and pictures. */
async function printed(
  { words, doc, front, view, common, twin }: Prepared,
  drawn: readonly DrawnPicture[],
  reader: Pick<ReaderView, 'detail' | 'pictures'>,
): Promise<RenderedBriefing> {
  const pictures = drawn.map(({ picture }) => picture);
  const said = new Map(pictures.map((picture) => [picture.id, picture.said]));
  const sectionsIn = (extent: Extent): Section[] =>
    inClockAll(sectionsOf(doc, view.units, words, extent), view.clock, words.page);
  const textIn = (extent: Extent): string => textPart(doc, front, sectionsIn(extent), words, said);
  const extent = reader.detail === 'web' ? WHOLE : fittingMail(textIn);
  const sections = sectionsIn(extent);
  const [html, pngs] = await Promise.all([
    pageOfParts(pageParts(doc, front, sections, pictures, words, { ...common, detail: extent.detail })),
    // Beside each other: nobody waits for the first before the second is begun.
    Promise.all(reader.pictures === false ? [] : drawn.map(({ svg }) => toPng(svg))),
  ]);
  return {
    ...common,
    html,
    text: textPart(doc, front, sections, words, said),
    get json() {
      return twin();
    },
    attachments: pictures.flatMap(({ id, cid }, i) => {
      const content = pngs[i];
      return content === undefined ? [] : [{ cid, filename: `${id}.png`, contentType: 'image/png', content }];
    }),
  };
}

/**
 * Page, text, short form, data and pictures of one briefing in one unit system. The same document gives the same
 * bytes. Render once per lake and unit system, then put in each reader's links (delivery).
 *
 * @throws {ThawlineError} `internal` when a template or a sentence is malformed
 */
export async function renderBriefing(document: KeptDocument, reader: ReaderView): Promise<RenderedBriefing> {
  const page = prepared(document, reader);
  if (reader.form === 'full') return printed(page, drawPictures(page.doc, page.view, page.words), reader);
  const { common, twin } = page;
  return {
    ...common,
    html: '',
    text: `${common.short}\n`,
    get json() {
      return twin();
    },
    attachments: [],
  };
}

/** A briefing as it is mailed, and all of it: a terminal and a file have room for what a mail leaves to its page. */
export interface BriefingInFull {
  readonly mail: Pick<RenderedBriefing, 'subject' | 'html' | 'text' | 'short' | 'attachments'>;
  readonly whole: RenderedBriefing;
}

/**
 * Both lengths of one briefing; pictures are made once, and stand in both.
 *
 * @throws {ThawlineError} `internal` when a template or a sentence is malformed
 */
export async function renderInFull(
  document: KeptDocument,
  reader: Pick<ReaderView, 'units' | 'pictures'>,
): Promise<BriefingInFull> {
  const page = prepared(document, { ...reader, form: 'full' });
  const drawn = drawPictures(page.doc, page.view, page.words);
  const whole = await printed(page, drawn, { ...reader, detail: 'web' });
  const { subject, html, text, short } = await printed(page, drawn, { pictures: false });
  return { whole, mail: { subject, html, text, short, attachments: whole.attachments } };
}
