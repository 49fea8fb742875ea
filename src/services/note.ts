import { ThawlineError } from '../units/index.ts';

/** Told of each part of a reply that was refused while the rest of it was used. */
export type Note = (problem: string) => void;

/** For callers that only want what could be used. */
export const unnoted: Note = () => undefined;

/**
 * Maps one part of a reply: a layer, a column, a row. What the part is refused for is noted and costs that part alone.
 *
 * @returns what the mapping gave, or `otherwise`
 */
export function partOf<T>(map: () => T, otherwise: T, note: Note): T {
  try {
    return map();
  } catch (error) {
    if (!(error instanceof ThawlineError)) throw error;
    note(error.message);
    return otherwise;
  }
}
