/** The language of a page: a private one speaks its reader's, every other one what all lakes of this place have. */
import type { Context, MiddlewareHandler } from 'hono';
import type { LakeConfig } from '../config/index.ts';
import type { Reader } from '../delivery/index.ts';
import { wordsFor, type Words } from '../words/index.ts';

declare module 'hono' {
  interface ContextVariableMap {
    words: Words;
  }
}

/** Words of the one language of all lakes; English where they differ. */
export function wordsOfPlace(lakes: readonly LakeConfig[]): Words {
  const [first, ...others] = new Set(lakes.map(({ language }) => language ?? 'en'));
  return wordsFor(others.length === 0 ? (first ?? 'en') : 'en');
}

export function inOneLanguage(lakes: readonly LakeConfig[]): MiddlewareHandler {
  const words = wordsOfPlace(lakes);
  return async (c, next) => {
    c.set('words', words);
    await next();
  };
}

/** From here on the page is the reader's. */
export function speakTo(c: Context, reader: Pick<Reader, 'language'>): Words['web'] {
  return allWordsTo(c, reader).web;
}

/** The same, with all words beside those of the frame. */
export function allWordsTo(c: Context, { language }: Pick<Reader, 'language'>): Words {
  if (language !== null) c.set('words', wordsFor(language));
  return allWordsOf(c);
}

export const wordsOf = (c: Context): Words['web'] => c.get('words').web;

/** All words of the page, beside those of its frame. */
export const allWordsOf = (c: Context): Words => c.get('words');
