/** Documents of any version as a page, and the twin that programs read: the facts with the sentences made from them. */
import { z } from 'zod';
import { briefingSchema, readBriefing, type Briefing } from '../../briefing/index.ts';
import { ThawlineError } from '../../units/index.ts';
import type { Words } from '../languages.ts';
import { frontOf } from './frontOf.ts';
import { pageOf } from './pageOf.ts';
import { pageSchema, type BriefingPage } from './schema.ts';

/** A document of today's version, or a page as the first version archived it. */
export type KeptDocument = Briefing | BriefingPage;

export const isFacts = (document: KeptDocument): document is Briefing =>
  document.schema === 'thawline-briefing/2';

/** The language a kept document is read in. */
export const languageOf = (document: KeptDocument): string =>
  isFacts(document) ? (document.lake.language ?? 'en') : document.language;

/** The page of a document; one of the first version has its own sentences and keeps them. */
export function toPage(document: KeptDocument, words: Words): BriefingPage {
  if (isFacts(document)) return pageOf(document, words);
  return document.front === undefined ? { ...document, front: frontOf(document, null, words) } : document;
}

/**
 * An archived document of any version.
 *
 * @throws {ThawlineError} `record` when it is of no version this program knows
 */
export function readArchived(documentJson: string): KeptDocument {
  const facts = readBriefing(documentJson);
  if (facts !== null) return facts;
  const old = pageSchema.safeParse(JSON.parse(documentJson));
  if (old.success) return old.data;
  throw new ThawlineError(
    'record',
    'A briefing in the record is of a version that this program does not read. Use the version that wrote it, or a newer one.',
  );
}

/** What is sent and published for programs. */
export const twinSchema = z
  .object({
    schema: z.literal('thawline-twin/2'),
    facts: briefingSchema
      .nullable()
      .describe('ids, codes and SI numbers; null for an issue of the first version'),
    page: pageSchema.describe(
      'the same, said in one language and one system of units; the drawing of the lake stands among the facts alone',
    ),
  })
  .meta({ title: 'Thawline briefing', description: 'One lake, one morning: facts and sentences.' });

/**
 * The twin as JSON text, the page looked over before it is written: the facts were when they were made or read.
 *
 * @throws {ThawlineError} `internal` naming the first field that is not as the schema has it
 */
export function twinJson(document: KeptDocument, page: BriefingPage): string {
  const facts = isFacts(document) ? document : null;
  // The drawing stands among the facts; it is the longest part of a twin and needs no second place.
  const { map: _drawn, ...said } = page;
  // Without code of its own for the schema, as the facts: see `checkedBriefing`.
  const found = pageSchema.safeParse(facts?.map === undefined ? page : said, { jitless: true });
  if (found.success) {
    const twin: z.output<typeof twinSchema> = { schema: 'thawline-twin/2', facts, page: found.data };
    return `${compactly(twin)}\n`;
  }
  throw new ThawlineError(
    'internal',
    `The briefing's data are not as their schema has them: ${z.prettifyError(found.error).split('\n').slice(0, 2).join(' ')}`,
  );
}

/**
 * JSON by lines, lists of numbers on one: an outline is thousands of them. No text is touched, for none holds a line feed
 * that is not escaped.
 */
const compactly = (value: unknown): string =>
  JSON.stringify(value, null, 1).replaceAll(/\[[-\d.eE+,\s]*\]/g, (numbers) =>
    numbers.replaceAll(/\n\s*/g, ''),
  );
