/** A sentence of the catalogue with parts of a page in it, in whatever order the language has them. */
import { html } from 'hono/html';
import type { Markup } from './page.ts';

/** Marks of a private area of Unicode, which no sentence holds. */
const FIRST_MARK = 0xe100;
const MARK = /([\ue100-\ue1ff])/u;

/**
 * @param say a sentence of the catalogue, given a mark for each part
 * @param parts links, code and the like, which stand where the sentence has their marks
 */
export function filled(say: (...marks: string[]) => string, ...parts: readonly Markup[]): Markup {
  const said = say(...parts.map((_, i) => String.fromCodePoint(FIRST_MARK + i)));
  return html`${said.split(MARK).map((piece) => parts[(piece.codePointAt(0) ?? 0) - FIRST_MARK] ?? piece)}`;
}
