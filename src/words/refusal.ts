/** What a reader asked for and does not get, as a code: the error beside it speaks to the operator. */
import type { OutingClash } from '../record/index.ts';
import type { ThawlineError } from '../units/index.ts';
import type { Words } from './languages.ts';
import { say, type Catalogue } from './catalogue.ts';

/** Wishes of a reader that cannot be kept as they are. */
export type WishRefusal =
  | { readonly code: 'wish.lakes'; readonly known: readonly string[]; readonly others: boolean }
  | { readonly code: 'wish.days' }
  | { readonly code: 'wish.earliest' }
  | { readonly code: 'wish.language'; readonly known: readonly string[] }
  | { readonly code: 'wish.hours' }
  | { readonly code: 'address' };

/** A lake that a reader's link does not open. */
export type LakeRefusal =
  | { readonly code: 'lake.none' }
  | { readonly code: 'reader.resting' }
  | { readonly code: 'lake.notTheirs'; readonly lake: string; readonly theirs: readonly string[] };

export type Refusal = WishRefusal | LakeRefusal | OutingClash;

const isIn = (catalogue: Catalogue<Refusal>, code: string): code is Refusal['code'] =>
  Object.hasOwn(catalogue, code);

/** What a reader is told of an error that is theirs to mend; the operator's sentence where it has no code. */
export function refusalWords({ fact, message }: ThawlineError, words: Words): string {
  const { refusal } = words;
  // Its code is one of the catalogue's, and whoever gave it gave the fact that belongs to it.
  return fact !== undefined && isIn(refusal, fact.code) ? say(refusal, fact as Refusal) : message;
}
