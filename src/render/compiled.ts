/**
 * The page from compiled templates. The mail compiler takes longer to load than a short command takes in all, and what
 * it makes of a template does not hang on what is printed in it: so the templates are compiled once with marks where a
 * day's words go, and only a template that changed since is compiled anew.
 */
import { createHash } from 'node:crypto';
import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { ThawlineError } from '../units/index.ts';
import { fillTemplate, templateText } from './template.ts';

export type BlockTemplate = 'masthead' | 'section' | 'hazard';

/** What is printed, each text escaped where it must be. */
export interface PageParts {
  readonly language: string;
  readonly title: string;
  readonly preheader: string;
  /** The masthead first. */
  readonly blocks: readonly { readonly template: BlockTemplate; readonly content: string }[];
}

/** Compiled templates, cut where words go in. */
interface CompiledPage {
  /** Up to the words of the first block; the slots of the head are still in it. */
  readonly start: string;
  /** From the words of a block to those of the next, by the templates of both: `section>hazard`. */
  readonly between: Readonly<Record<string, string>>;
  /** From the words of the last block to the end of the page, by its template. */
  readonly end: Readonly<Record<string, string>>;
}

export interface BuiltPage {
  readonly digest: string;
  readonly page: CompiledPage;
}

/** Beside the chunks of the build; the source tree has no such file, and compiles. */
const BUILT = fileURLToPath(new URL('../mail.json', import.meta.url));
const TEMPLATES = ['briefing', 'masthead', 'section', 'hazard'] as const;

/** Fingerprint of the templates as they are now. */
export function templatesDigest(): string {
  const hash = createHash('sha256');
  for (const name of TEMPLATES) hash.update(`${name}\n${templateText(name)}\n`);
  return hash.digest('hex');
}

/** Page as the templates make it of its parts, before the mail compiler. */
export const mjmlOf = ({ language, title, preheader, blocks }: PageParts): string =>
  fillTemplate('briefing', {
    language,
    title,
    preheader,
    body: blocks.map(({ template, content }) => fillTemplate(template, { content })).join('\n'),
  });

/**
 * Compiled page.
 *
 * @throws {ThawlineError} `internal` when a template does not compile: the sentence names the first fault
 */
export async function compilePage(mjml: string): Promise<string> {
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
  return withoutIndentation(html);
}

/** Indentation is a tenth of the page, and mailbox providers clip long pages. Foreign text keeps its own by entities. */
const withoutIndentation = (html: string): string => html.replace(/\n\s+/g, '\n');

const MARK = '-words-go-here-';
/** Pages in which every template stands beside every other that may follow it, and last. */
const SEQUENCES: readonly (readonly BlockTemplate[])[] = [
  ['masthead', 'section', 'section', 'hazard', 'hazard', 'section'],
  ['masthead', 'hazard'],
  ['masthead'],
];

/**
 * The templates compiled and cut.
 *
 * @returns null where they cannot be cut: a template prints its words never or more than once
 */
export async function compileTemplates(): Promise<CompiledPage | null> {
  const between: Record<string, string> = {};
  const end: Record<string, string> = {};
  const starts = new Set<string>();
  for (const templates of SEQUENCES) {
    const blocks = templates.map((template) => ({ template, content: MARK }));
    const slots = { language: '{{language}}', title: '{{title}}', preheader: '{{preheader}}' };
    const pieces = (await compilePage(mjmlOf({ ...slots, blocks }))).split(MARK);
    if (pieces.length !== templates.length + 1) return null;
    starts.add(pieces[0] ?? '');
    for (const [i, template] of templates.entries()) {
      const next = templates[i + 1];
      const piece = pieces[i + 1] ?? '';
      if (next === undefined) end[template] = piece;
      else between[`${template}>${next}`] = piece;
    }
  }
  const [start = '', ...others] = starts;
  return others.length > 0 ? null : { start, between, end };
}

/** Of the templates as they were last: an edit in the preview shows at once, for their letters are the key. */
let last: { readonly digest: string; readonly page: Promise<CompiledPage | null> } | undefined;

function builtPage(digest: string): CompiledPage | null {
  if (!existsSync(BUILT)) return null;
  // Written by the build.
  const built = JSON.parse(readFileSync(BUILT, 'utf8')) as BuiltPage;
  return built.digest === digest ? built.page : null;
}

async function compiledNow(): Promise<CompiledPage | null> {
  const digest = templatesDigest();
  if (last?.digest !== digest) {
    const built = builtPage(digest);
    last = { digest, page: built === null ? compileTemplates() : Promise.resolve(built) };
  }
  return await last.page;
}

/**
 * The page of these parts, letter for letter what the mail compiler makes of them.
 *
 * @throws {ThawlineError} `internal` when a template does not compile
 */
export async function pageOfParts(parts: PageParts): Promise<string> {
  const compiled = await compiledNow();
  const filled = compiled === null ? null : fill(compiled, parts);
  return filled ?? (await compilePage(mjmlOf(parts)));
}

/** @returns null where blocks follow each other as none of the compiled pages has them */
function fill({ start, between, end }: CompiledPage, parts: PageParts): string | null {
  const { blocks } = parts;
  if (blocks[0]?.template !== 'masthead') return null;
  const head = { language: parts.language, title: parts.title, preheader: parts.preheader };
  const pieces = [
    start.replace(/\{\{(language|title|preheader)\}\}/g, (_, slot: keyof typeof head) => head[slot]),
  ];
  for (const [i, { template, content }] of blocks.entries()) {
    const next = blocks[i + 1]?.template;
    const after = next === undefined ? end[template] : between[`${template}>${next}`];
    if (after === undefined) return null;
    // The compiler trims what stands in a text.
    pieces.push(content.trim(), after);
  }
  return withoutIndentation(pieces.join(''));
}
