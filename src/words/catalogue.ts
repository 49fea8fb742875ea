/** Something to be said: a code with the numbers that its sentence needs, SI. Rooms below `words` pass these, never English. */
export interface Fact {
  readonly code: string;
}

/** One sentence a code, exhaustive by type: a fact without a sentence does not compile. */
export type Catalogue<F extends Fact> = {
  readonly [C in F['code']]: (fact: Extract<F, { code: C }>) => string;
};

/** The sentence of a fact; quantities stay `{{kind:SI value}}` until the reader's units are known. */
export function say<F extends Fact>(catalogue: Catalogue<F>, fact: F): string {
  // The catalogue's key and the fact's code are the same by construction; the compiler cannot follow it through a union.
  const sentence = catalogue[fact.code as F['code']] as (fact: F) => string;
  return sentence(fact);
}
