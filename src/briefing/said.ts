/** A sentence as earlier issues archived it; no room makes one any more. */
export interface SaidFact {
  readonly code: 'said';
  readonly text: string;
}
