/** Names of places and lures on pages that hold no document. */
import type { RuleText } from '../config/index.ts';
import type { Words } from './languages.ts';

/** @param text the rules' own words in the language */
export const placeNamed = (text: RuleText, kind: string): string => text[`place.${kind}.name`] ?? kind;

/** @param text the rules' own words in the language */
export const lureNamed = (words: Words, text: RuleText, lure: string): string =>
  words.facts(text)['advice.lure']({ code: 'advice.lure', lure }, () => '');
