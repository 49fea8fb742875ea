import { en } from './en/index.ts';
import { PSEUDO, pseudoWords } from './pseudo.ts';

/** The shape that every language fills. */
export type Words = typeof en;

let pseudo: Words | undefined;

/** Words for a language; English where the language has no folder. */
export function wordsFor(language: string): Words {
  if (language === PSEUDO) return (pseudo ??= pseudoWords(en));
  return en;
}
