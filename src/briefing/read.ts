/** Reading kept documents back: the newest version whole, older ones as far as comparing and scoring needs. */
import { z } from 'zod';
import { ThawlineError } from '../units/index.ts';
import { briefingSchema, type Briefing } from './document/briefing.ts';
import { comparableSchema, type ComparableIssue } from './document/comparable.ts';

function parsed(documentJson: string): unknown {
  try {
    return JSON.parse(documentJson) as unknown;
  } catch {
    return undefined;
  }
}

/** A kept document of today's version; null for another version or a damaged one. */
export function readBriefing(documentJson: string): Briefing | null {
  const found = briefingSchema.safeParse(parsed(documentJson));
  return found.success ? found.data : null;
}

/** What can be compared with a later issue, of any version; null where the document holds no such thing. */
export function readComparable(documentJson: string): ComparableIssue | null {
  const found = comparableSchema.safeParse(parsed(documentJson));
  return found.success ? found.data : null;
}

/**
 * The document, looked over before anything is written: exactly what the published schema describes.
 *
 * @throws {ThawlineError} `internal` naming the first field that is not as the schema has it
 */
export function checkedBriefing(document: Briefing): Briefing {
  // Code of its own for a schema this wide takes five times as long to make as the one look it is made for.
  const found = briefingSchema.safeParse(document, { jitless: true });
  if (found.success) return found.data;
  throw new ThawlineError(
    'internal',
    `The briefing that was made is not as its schema has it, so it was not written: ${z.prettifyError(found.error).split('\n').slice(0, 2).join(' ')}`,
  );
}
