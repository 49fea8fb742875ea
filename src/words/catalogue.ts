/** Something to be said: a code with the numbers that its sentence needs, SI. Rooms below `words` pass these, never English. */
export interface Fact {
  readonly code: string;
}

/** Says a fact that another fact carries inside. */
export type Inner = (fact: Fact) => string;

/** One sentence a code, exhaustive by type: a fact without a sentence does not compile. */
export type Catalogue<F extends Fact> = {
  readonly [C in F['code']]: (fact: Extract<F, { code: C }>, inner: Inner) => string;
};

/**
 * The sentence of a fact; quantities stay `{{kind:SI value}}` until the reader's units are known.
 *
 * @param inner how facts inside the fact are said; from the same catalogue when left out
 */
export function say<F extends Fact>(catalogue: Catalogue<F>, fact: F, inner?: Inner): string {
  // The catalogue's key and the fact's code are the same by construction; the compiler cannot follow it through a union.
  const sentence = catalogue[fact.code as F['code']] as (fact: F, inner: Inner) => string;
  return sentence(fact, inner ?? ((nested) => say(catalogue, nested as F)));
}
