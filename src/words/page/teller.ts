/** Says a fact of any room in one language. */
import type { Fact } from '../catalogue.ts';
import type { Words } from '../languages.ts';

/** The sentence of a fact; '' for a code that this version has no sentence for, as an older document may hold. */
export type Teller = (fact: Fact) => string;

export function tellerOf(words: Words): Teller {
  // Every room's catalogue is exhaustive over its own facts by type; of a document read back only the code is known.
  const all = words.facts as unknown as Readonly<
    Record<string, ((fact: Fact, inner: Teller) => string) | undefined>
  >;
  const tell: Teller = (fact) => (Object.hasOwn(all, fact.code) ? (all[fact.code]?.(fact, tell) ?? '') : '');
  return tell;
}
