/** What PostgreSQL's error codes mean to a person. https://www.postgresql.org/docs/current/errcodes-appendix.html */
import { ThawlineError } from '../../../units/index.ts';

/** Codes of the socket, before the database says anything. */
const UNREACHABLE = new Set([
  'ECONNREFUSED',
  'ECONNRESET',
  'ENOTFOUND',
  'ETIMEDOUT',
  'EPIPE',
  'EHOSTUNREACH',
  'EAI_AGAIN',
]);
/** What the driver says of a connection that went away under it; it has no code for these. */
const LOST =
  /Connection terminated|Client has encountered a connection error|timeout exceeded when trying to connect|not queryable|Query read timeout/i;

const codeOf = (error: unknown): string =>
  error instanceof Error && 'code' in error && typeof error.code === 'string' ? error.code : '';

function isAway(error: unknown): boolean {
  const code = codeOf(error);
  if (UNREACHABLE.has(code) || code.startsWith('08') || code.startsWith('57P') || code === '53300')
    return true;
  return code === '' && error instanceof Error && LOST.test(error.message);
}

/** Two transactions that stood in each other's way: the whole of it may simply be done again. */
export function mayBeRepeated(error: unknown): boolean {
  const code = codeOf(error instanceof ThawlineError ? error.cause : error);
  return code === '40001' || code === '40P01';
}

/** By the code or its class (the first two characters). */
const SENTENCE: Readonly<Record<string, string>> = {
  '28': 'PostgreSQL refused the name or the password of the record: check the address in the environment variable.',
  '3D': 'The database of the record does not exist on the server: make it (docs/many-machines.md, "Set up"), or check the address.',
  '42501': 'PostgreSQL refused this user what the program needs: see the roles in docs/many-machines.md.',
  '53100': 'The disk under PostgreSQL is full: nothing was written. Make room and run this again.',
  '25006': 'PostgreSQL only reads at the moment (a standby?): name the server that takes writes.',
};

/**
 * Classes whose messages name tables, columns and rules, never what was written: what they say may stand in a log.
 * Class 22 quotes values.
 */
const NAMES_ONLY = /^(?:0A|23|25|40|42|53|54|55|57|58|XX)/;

/** The error a user meets; the driver's own where it may quote values. Never the address: it holds the password. */
export function serverFault(error: unknown): unknown {
  if (error instanceof ThawlineError) return error;
  const code = codeOf(error);
  const sentence = SENTENCE[code] ?? SENTENCE[code.slice(0, 2)];
  if (sentence !== undefined)
    return new ThawlineError('record', sentence, {
      cause: error,
      retryable: code === '53100' || code === '25006',
    });
  if (isAway(error))
    return new ThawlineError(
      'record',
      'PostgreSQL behind the record cannot be reached, or went away: what was under way was not written. It is tried again by itself; see whether the server runs.',
      { cause: error, retryable: true },
    );
  if (mayBeRepeated(error))
    return new ThawlineError(
      'record',
      'Two processes stood in each other\u2019s way in the record: nothing was written.',
      {
        cause: error,
        retryable: true,
      },
    );
  if (error instanceof Error && NAMES_ONLY.test(code))
    return new ThawlineError(
      'internal',
      `PostgreSQL refused what the program asked: ${error.message} (${code}).`,
      {
        cause: error,
      },
    );
  return error;
}
