import { en, type Messages } from './en.ts';

export type { Messages } from './en.ts';

const CATALOGUES: Readonly<Record<string, Messages>> = { en };

/** Words for a language; English where the language has no catalogue yet. */
export function messagesFor(language: string): Messages {
  return CATALOGUES[language] ?? en;
}
