/** The language of a page: a private one speaks its reader's, every other one what all lakes of this place have. */
import type { Context, MiddlewareHandler } from 'hono';
import type { LakeConfig } from '../config/types.ts';
import type { Reader } from '../delivery/index.ts';
import { wordsFor, type Words } from '../words/index.ts';

declare module 'hono' {
  interface ContextVariableMap {
    words: Words;
  }
}

/** The one language of all lakes; English where they differ. */
const shared = (lakes: readonly LakeConfig[]): string => {
  const [first, ...others] = new Set(lakes.map(({ language }) => language ?? 'en'));
  return others.length === 0 ? (first ?? 'en') : 'en';
};

export function inOneLanguage(lakes: readonly LakeConfig[]): MiddlewareHandler {
  const words = wordsFor(shared(lakes));
  return async (c, next) => {
    c.set('words', words);
    await next();
  };
}

/** From here on the page is the reader's. */
export function speakTo(c: Context, { language }: Pick<Reader, 'language'>): Words['web'] {
  if (language !== null) c.set('words', wordsFor(language));
  return wordsOf(c);
}

export const wordsOf = (c: Context): Words['web'] => c.get('words').web;
