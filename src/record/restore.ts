import { closeSync, copyFileSync, existsSync, fsyncSync, openSync, renameSync, rmSync } from 'node:fs';
import { ThawlineError } from '../units/index.ts';
import { takeWhole } from './dialect/index.ts';
import { serverUpkeep } from './dialect/postgres/upkeep.ts';
import { openRecord } from './open.ts';
import { isServerRecord } from './server.ts';

/** Where the record goes that a restore replaces. */
export function replacedPath(path: string): string {
  return `${path}.replaced`;
}

/** A copy that is a record, whole, and of a version that this program reads. */
async function examine(copy: string): Promise<void> {
  const record = await openRecord(copy);
  const complaint = await record.upkeep.complaint();
  await record.close();
  if (complaint !== '')
    throw new ThawlineError(
      'record',
      `The backup is damaged (${complaint}): take an older one. Nothing was changed.`,
    );
}

/**
 * Puts a backup in the place of the record. The record so far is kept beside it.
 *
 * @returns where the record so far is now; null when there was none
 * @throws ThawlineError `record` when a process has the record open, or the backup is not a whole record; then nothing was changed
 */
export async function restoreRecord(backup: string, path: string): Promise<string | null> {
  if (isServerRecord(path)) await serverUpkeep.copyTo(path);
  if (!existsSync(backup))
    throw new ThawlineError('usage', `There is no backup ${backup}: name a file that "record backup" wrote.`);
  const draft = `${path}.restoring`;
  rmSync(draft, { force: true });
  try {
    copyFileSync(backup, draft);
    await examine(draft);
    const release = existsSync(path) ? takeWhole(path) : null;
    const fd = openSync(draft, 'r');
    fsyncSync(fd);
    closeSync(fd);
    const kept = release === null ? null : replacedPath(path);
    release?.();
    if (kept !== null) renameSync(path, kept);
    for (const end of ['-wal', '-shm']) rmSync(path + end, { force: true });
    renameSync(draft, path);
    return kept;
  } finally {
    for (const end of ['', '-wal', '-shm']) rmSync(draft + end, { force: true });
  }
}
