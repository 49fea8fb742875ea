/** Exit codes of the command line; the same numbers are printed in README. */
export const EXIT = { ok: 0, failure: 1, usage: 2, config: 3, record: 4, service: 5, mail: 6 } as const;

export type ErrorCode = 'usage' | 'config' | 'record' | 'service' | 'mail' | 'internal';

/** What a reader is told of an error, as a code with its numbers. */
export type ReaderFact = { readonly code: string } & Readonly<Record<string, unknown>>;

/**
 * The one family of errors a user can meet: a code, one sentence that says what happened and how to mend it,
 * and whether trying again later can help.
 */
export class ThawlineError extends Error {
  override readonly name = 'ThawlineError';
  readonly code: ErrorCode;
  readonly retryable: boolean;
  readonly retryAfterMs: number | undefined;
  /** What a reader is told of it in their language; the sentence is the operator's. */
  readonly fact: ReaderFact | undefined;

  constructor(
    code: ErrorCode,
    sentence: string,
    options: {
      retryable?: boolean;
      retryAfterMs?: number;
      cause?: unknown;
      fact?: ReaderFact;
    } = {},
  ) {
    super(sentence, options.cause === undefined ? undefined : { cause: options.cause });
    this.code = code;
    this.retryable = options.retryable ?? false;
    this.retryAfterMs = options.retryAfterMs;
    this.fact = options.fact;
  }

  get exitCode(): number {
    return this.code === 'internal' ? EXIT.failure : EXIT[this.code];
  }
}
