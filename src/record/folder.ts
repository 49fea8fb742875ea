/** Folders made step by step, so that one that cannot be made is an error at once. */
import { lstatSync, mkdirSync, statSync } from 'node:fs';
import { dirname, resolve } from 'node:path';

/**
 * Makes a folder and those above it. Not by `mkdir`'s own `recursive`: where the system answers ENOENT although the
 * folder above is there, as below /proc, Node 20 tries again for ever.
 *
 * @throws what the system says of the first one that cannot be made
 */
export function makeFolder(path: string): void {
  const missing: string[] = [];
  for (let at = resolve(path); statSync(at, { throwIfNoEntry: false }) === undefined; at = dirname(at))
    missing.push(at);
  for (const folder of missing.reverse())
    try {
      mkdirSync(folder);
    } catch (error) {
      // Another process may have made it meanwhile.
      if (statSync(folder, { throwIfNoEntry: false })?.isDirectory() !== true) throw error;
    }
}

/** Whether there is nothing: no entry, or a file where a folder of the path should be. */
export function isMissing(look: () => unknown): boolean {
  try {
    look();
    return false;
  } catch (error) {
    if (error instanceof Error && 'code' in error && (error.code === 'ENOENT' || error.code === 'ENOTDIR'))
      return true;
    throw error;
  }
}

/** A path itself or the nearest above it that is there; a link that leads nowhere counts as there, for it is in the way. */
export function nearestThere(path: string): string {
  let at = resolve(path);
  while (isMissing(() => lstatSync(at))) at = dirname(at);
  return at;
}
