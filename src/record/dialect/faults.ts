/** What SQLite's result codes mean to a person. https://www.sqlite.org/rescode.html */
import { ThawlineError } from '../../units/index.ts';

/** Primary result codes that this program has a sentence for. */
const CODE = {
  busy: 5,
  locked: 6,
  readonly: 8,
  ioerr: 10,
  corrupt: 11,
  full: 13,
  cantopen: 14,
  notadb: 26,
} as const;

/** `sqlite3_errstr` of those codes: rows read by `all()` come without the number. */
const CODE_OF_TEXT: Readonly<Record<string, number>> = {
  'database is locked': CODE.busy,
  'database table is locked': CODE.locked,
  'attempt to write a readonly database': CODE.readonly,
  'disk I/O error': CODE.ioerr,
  'database disk image is malformed': CODE.corrupt,
  'database or disk is full': CODE.full,
  'unable to open database file': CODE.cantopen,
  'file is not a database': CODE.notadb,
};

/** Primary result code of an error of the driver; undefined for any other error. */
function primaryCode(error: unknown): number | undefined {
  if (!(error instanceof Error) || !('code' in error) || error.code !== 'ERR_SQLITE_ERROR') return undefined;
  // The low byte is the primary code, the rest tells kinds of it apart.
  if ('errcode' in error && typeof error.errcode === 'number') return error.errcode & 0xff;
  return CODE_OF_TEXT[error.message];
}

/** Whether another connection is in the way, so that the same call may succeed a little later. */
export function isBusy(error: unknown): boolean {
  const code = primaryCode(error);
  return code === CODE.busy || code === CODE.locked;
}

/** @param complaint SQLite's own, where a look through the file gave one */
export function damagedWords(path: string, complaint = ''): string {
  const what = complaint === '' ? 'damaged' : `damaged (${complaint})`;
  return `The record ${path} is ${what}: stop everything that uses it, keep the file, and restore the newest backup (docs/operations.md, "Backup").`;
}

const SENTENCE: Readonly<Record<number, (path: string) => string>> = {
  [CODE.readonly]: (path) =>
    `The record ${path} may not be written: give this user the right to write the file and its folder.`,
  [CODE.ioerr]: (path) =>
    `The disk failed or has no room while the record ${path} was read or written: make room if it is full (df), else look at the system's log before anything else writes to it.`,
  [CODE.corrupt]: damagedWords,
  [CODE.full]: (path) =>
    `The disk under the record ${path} is full: nothing was written. Make room and run this again.`,
  [CODE.cantopen]: (path) =>
    `The record ${path} could not be opened: check that its folder exists and is writable.`,
  [CODE.notadb]: (path) =>
    `${path} is not a record (or its beginning is damaged): name another file as "record" in the configuration, or restore the newest backup.`,
};

/**
 * What is wrong with a file that is looked at and not used, without a cure.
 *
 * @param error as {@link recordFault} gave it
 * @returns null where it does not come from the file itself
 */
export function badFileWords(error: unknown): string | null {
  const code = primaryCode(error instanceof ThawlineError ? error.cause : error);
  if (code === CODE.corrupt) return 'is damaged';
  return code === CODE.notadb ? 'is not a record, or its beginning is damaged' : null;
}

/** The error a user meets: the driver's own where it is a fault of the program. */
export function recordFault(error: unknown, path: string): unknown {
  const sentence = SENTENCE[primaryCode(error) ?? -1];
  if (sentence === undefined) return error;
  return new ThawlineError('record', sentence(path), {
    cause: error,
    retryable: primaryCode(error) === CODE.full,
  });
}

/**
 * A copy that could not be written: told of the copy's own place, which may be another disk than the record's.
 *
 * @param error as {@link recordFault} or the system gave it
 */
export function copyFault(error: unknown, target: string): unknown {
  const isOurs = error instanceof ThawlineError;
  const ofPlace: readonly (number | undefined)[] = [CODE.full, CODE.cantopen, CODE.readonly];
  if (isOurs && !ofPlace.includes(primaryCode(error.cause))) return error;
  const isSystem = error instanceof Error && 'syscall' in error;
  if (!isOurs && !isSystem) return error;
  return new ThawlineError(
    'record',
    `The copy ${target} could not be written: name a file in a folder that exists, that this user may write and that has room for it.`,
    { cause: error },
  );
}

export function lockedFault(path: string, waitedMs: number, cause: unknown): ThawlineError {
  return new ThawlineError(
    'record',
    `The record ${path} is locked by another process since ${Math.round(waitedMs / 1000)} s: nothing was written. Run this again when that process is done (a backup, a copy, a database browser?).`,
    { cause, retryable: true },
  );
}
