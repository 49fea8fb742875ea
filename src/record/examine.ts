/** Looks whether a record can be used, before anything rests on it; nothing is made, migrated or left behind. */
import { accessSync, constants, mkdtempSync, rmdirSync, statSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { Kysely } from 'kysely';
import { ThawlineError } from '../units/index.ts';
import { damagedWords, isForeign, refuseNoFile, sqliteRecord, type Upkeep } from './dialect/index.ts';
import { isMissing, nearestThere } from './folder.ts';
import { versionHere, versionsOf } from './migrate.ts';
import { isServerRecord, serverAddress } from './server.ts';
import type { Database } from './schema/index.ts';

/** What a look at a record found. */
export interface Examined {
  /** False: the first command that needs it makes it. */
  readonly isThere: boolean;
}

const notWritable = (path: string, what: string, cause?: unknown): ThawlineError =>
  new ThawlineError(
    'record',
    `The record ${path} may not be written (${what}): give this user the right to write the file and its folder, or name another place as "record".`,
    { cause },
  );

/** What lies there, or that it may not even be looked at. */
function seen<T>(path: string, look: () => T): T {
  try {
    return look();
  } catch (cause) {
    throw notWritable(path, 'this user may not look into its folder', cause);
  }
}

/** Rights alone do not tell: a disk mounted for reading and the system's own folders give them too. So it is tried. */
function proveFolder(path: string, folder: string): void {
  if (statSync(folder, { throwIfNoEntry: false })?.isDirectory() !== true)
    throw notWritable(path, `${folder} is no folder`);
  try {
    rmdirSync(mkdtempSync(join(folder, '.thawline-trial-')));
  } catch (cause) {
    throw notWritable(path, `nothing can be made in ${folder}`, cause);
  }
}

/** What a file is, looked at without a change. */
export interface RecordLook {
  /** Another program's database. */
  readonly isForeign: boolean;
  /** 0 where there are no tables of a record. */
  readonly version: number;
  /** The newest version that this program knows. */
  readonly newest: number;
  /** SQLite's first complaint about the file; '' when all is well. */
  readonly complaint: string;
}

async function looking<T>(
  path: string,
  look: (db: Kysely<Database>, upkeep: () => Upkeep) => Promise<T>,
): Promise<T> {
  const { dialect, upkeep } = sqliteRecord(path, undefined, true);
  const db = new Kysely<Database>({ dialect });
  try {
    return await look(db, upkeep);
  } finally {
    await db.destroy();
  }
}

/** Looks at a file of SQLite, and leaves the judgement to whoever asked. @throws ThawlineError `record` where it is none */
export const lookInto = (path: string): Promise<RecordLook> =>
  looking(path, async (db, upkeep) => ({
    isForeign: await isForeign(db),
    ...(await versionsOf(db)),
    complaint: await upkeep().complaint(),
  }));

const lookThrough = (path: string): Promise<void> =>
  looking(path, async (db, upkeep) => {
    await versionHere(db, path);
    const complaint = await upkeep().complaint();
    if (complaint !== '') throw new ThawlineError('record', damagedWords(path, complaint));
  });

async function examineServer(address: string): Promise<Examined> {
  return { isThere: (await (await import('./openServer.ts')).lookAtServer(address)) > 0 };
}

/**
 * Whether the record can be read and written: a folder in its place, a file of something else, a damaged one, one of a
 * newer version, a place where nothing can be made are all told now and not at the hour of issue.
 *
 * @param path as {@link openRecord} takes it
 * @throws ThawlineError `record` with what is wrong and how to mend it; `config` where a server's address is missing
 */
export async function examineRecord(path: string): Promise<Examined> {
  if (path === ':memory:') return { isThere: false };
  if (isServerRecord(path)) return examineServer(serverAddress(path, process.env));
  if (seen(path, () => isMissing(() => statSync(path)))) {
    proveFolder(
      path,
      seen(path, () => nearestThere(path)),
    );
    return { isThere: false };
  }
  refuseNoFile(path, statSync(path));
  try {
    accessSync(path, constants.R_OK | constants.W_OK);
  } catch (cause) {
    throw notWritable(path, 'this user has no right to it', cause);
  }
  proveFolder(path, dirname(path));
  await lookThrough(path);
  return { isThere: true };
}
