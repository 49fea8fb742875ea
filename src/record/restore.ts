import {
  accessSync,
  chmodSync,
  closeSync,
  constants,
  copyFileSync,
  existsSync,
  fsyncSync,
  openSync,
  renameSync,
  rmSync,
  statSync,
} from 'node:fs';
import { dirname } from 'node:path';
import { ThawlineError } from '../units/index.ts';
import { badFileWords, takeWhole } from './dialect/index.ts';
import { serverUpkeep } from './dialect/postgres/upkeep.ts';
import { lookInto, type RecordLook } from './examine.ts';
import { makeFolder } from './folder.ts';
import { isServerRecord } from './server.ts';

/**
 * A name beside the record that nothing has yet, taken at once so that nobody else gets it: what an earlier restore kept
 * may be the only copy of what was told since.
 */
function takeReplacedName(path: string): string {
  for (let n = 1; ; n += 1) {
    const name = n === 1 ? `${path}.replaced` : `${path}.replaced-${n}`;
    try {
      closeSync(openSync(name, 'wx', 0o600));
      return name;
    } catch (error) {
      if (!(error instanceof Error && 'code' in error && error.code === 'EEXIST')) throw error;
    }
  }
}

/**
 * Of a file that nobody may write while it is copied or replaced.
 *
 * @throws ThawlineError `record` when another connection has it open
 */
export function refuseInUse(path: string): void {
  if (existsSync(path)) takeWhole(path)();
}

/** A refusal that speaks of the file the operator named. */
const unusable = (backup: string, why: string, cause?: unknown): ThawlineError =>
  new ThawlineError('record', `The backup ${backup} ${why}. Nothing was changed.`, { cause });

/** @throws ThawlineError `usage` where there is none, `record` where it is no file or may not be read */
function refuseUnreadable(backup: string): void {
  if (!existsSync(backup))
    throw new ThawlineError('usage', `There is no backup ${backup}: name a file that "record backup" wrote.`);
  const found = statSync(backup);
  if (!found.isFile())
    throw unusable(
      backup,
      `is ${found.isDirectory() ? 'a folder' : 'no file'}: name a file that "record backup" wrote`,
    );
  try {
    accessSync(backup, constants.R_OK);
  } catch (cause) {
    throw unusable(backup, 'may not be read by this user: give the right to', cause);
  }
}

/** A copy that is a record, whole, and of a version that this program reads; it is migrated when it is first opened. */
async function refuseUnusable(copy: string, backup: string): Promise<void> {
  let found: RecordLook;
  try {
    found = await lookInto(copy);
  } catch (cause) {
    const why = badFileWords(cause);
    if (why === null) throw cause;
    throw unusable(backup, `${why}: take an older one, or name a file that "record backup" wrote`, cause);
  }
  const { isForeign, version, newest, complaint } = found;
  if (isForeign)
    throw unusable(backup, 'is the database of another program: name a file that "record backup" wrote');
  if (version > newest)
    throw unusable(
      backup,
      `was written by a newer Thawline (version ${version}, this one knows ${newest}): install that version again, or take an older one`,
    );
  if (complaint !== '') throw unusable(backup, `is damaged (${complaint}): take an older one`);
  if (version === 0)
    throw unusable(backup, 'is empty: take an older one, or name a file that "record backup" wrote');
}

/** @throws ThawlineError `record` where the disk has no room or the folder may not be written */
function copyBeside(backup: string, draft: string): void {
  try {
    makeFolder(dirname(draft));
    copyFileSync(backup, draft);
    chmodSync(draft, 0o600);
  } catch (cause) {
    if (!(cause instanceof Error && 'syscall' in cause)) throw cause;
    const why = `could not be copied to ${draft}: make room, and give this user the right to write the folder`;
    throw unusable(backup, why, cause);
  }
}

/** Its log goes with it where it is too damaged for the log to be written into it. */
function setAside(path: string): string {
  let release: (() => void) | null = null;
  try {
    release = takeWhole(path);
  } catch (error) {
    // Who restores a backup because the record is damaged must not be refused for that.
    if (badFileWords(error) === null) throw error;
  }
  let kept: string;
  try {
    kept = takeReplacedName(path);
  } finally {
    release?.();
  }
  if (release === null && existsSync(`${path}-wal`)) renameSync(`${path}-wal`, `${kept}-wal`);
  renameSync(path, kept);
  return kept;
}

/**
 * Puts a backup in the place of the record. The record so far is kept beside it.
 *
 * @returns where the record so far is now, a name that nothing had before; null when there was none
 * @throws ThawlineError `record` when a process has the record open, or the backup is not a whole record; then nothing was changed
 */
export async function restoreRecord(backup: string, path: string): Promise<string | null> {
  if (isServerRecord(path)) await serverUpkeep.copyTo(path);
  refuseUnreadable(backup);
  const draft = `${path}.restoring`;
  rmSync(draft, { force: true });
  try {
    copyBeside(backup, draft);
    await refuseUnusable(draft, backup);
    const fd = openSync(draft, 'r');
    fsyncSync(fd);
    closeSync(fd);
    const kept = existsSync(path) ? setAside(path) : null;
    for (const end of ['-wal', '-shm']) rmSync(path + end, { force: true });
    renameSync(draft, path);
    return kept;
  } finally {
    for (const end of ['', '-wal', '-shm']) rmSync(draft + end, { force: true });
  }
}
