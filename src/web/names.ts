/** Names of places and lures in the language of a page. */
import type { RuleBook } from '../config/index.ts';
import { lureNamed, placeNamed, type Words } from '../words/index.ts';

export interface Names {
  readonly place: (kind: string) => string;
  readonly lure: (lure: string) => string;
}

export function namesIn(words: Words, rules: RuleBook): Names {
  const text = words.ofRules(rules.texts);
  return { place: (kind) => placeNamed(text, kind), lure: (lure) => lureNamed(words, text, lure) };
}
