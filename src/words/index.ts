import { en } from './en/index.ts';

export { say, type Catalogue, type Fact } from './catalogue.ts';

/** The shape that every language fills. */
export type Words = typeof en;
export type Messages = Words['page'];

const LANGUAGES: Readonly<Record<string, Words>> = { en };

/** Words for a language; English where the language has no folder yet. */
export function wordsFor(language: string): Words {
  return LANGUAGES[language] ?? en;
}

export function messagesFor(language: string): Messages {
  return wordsFor(language).page;
}
