import type { Language } from '../vocabulary/index.ts';
import { en } from './en/index.ts';
import { PSEUDO, pseudoWords } from './pseudo.ts';

/** The shape that every language fills. */
export type Words = typeof en;

/** A language is a folder beside `en/` and a line here. */
const FOLDERS: Readonly<Record<Language, Words>> = { en };

let pseudo: Words | undefined;

/** Words for a language; English where the language has no folder. */
export function wordsFor(language: string): Words {
  if (language === PSEUDO) return (pseudo ??= pseudoWords(en));
  return Object.entries(FOLDERS).find(([known]) => known === language)?.[1] ?? en;
}
