import type { RuleText } from '../config/index.ts';
import { ThawlineError } from '../units/index.ts';

/**
 * A rule's own words; its key where a language has none yet, so that a gap shows and breaks nothing.
 *
 * @throws ThawlineError `internal` when there are no words of rules at all: a page of keys must not reach a reader
 */
export function ruleWords(text: RuleText, key: string): string {
  const said = text[key];
  if (said === undefined && Object.keys(text).length === 0)
    throw new ThawlineError('internal', `The page was made without the words of its rules ("${key}").`);
  return said ?? key;
}

/** What a rule says of a place that it speaks against. */
export const ruleAgainst = (text: RuleText, rule: string): string =>
  text[`${rule}.against`] ?? ruleWords(text, rule);
