/** A sentence that came from below as a sentence: its writer's own rule or reason. It is passed on as it is. */
export interface SaidFact {
  readonly code: 'said';
  readonly text: string;
}

export const said = (text: string): SaidFact => ({ code: 'said', text });
