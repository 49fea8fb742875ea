import { ThawlineError } from '../../units/index.ts';
import { isBusy, recordFault } from './faults.ts';
import { Handle } from './file.ts';

/**
 * Takes a file for this process alone, its log written into it.
 *
 * @returns lets it go again
 * @throws ThawlineError `record` when another connection has it open
 */
export function takeWhole(path: string): () => void {
  const handle = new Handle(path);
  try {
    // In this mode the lock is the file's own, which every open connection shares.
    handle.exec('pragma locking_mode = exclusive');
    handle.exec('begin exclusive; commit');
    return () => handle.close();
  } catch (error) {
    handle.close();
    if (!isBusy(error)) throw recordFault(error, path);
    throw new ThawlineError(
      'record',
      `The record ${path} is open in another process: stop "thawline run", "web" and whatever else uses it, then run this again. Nothing was changed.`,
      { cause: error, retryable: true },
    );
  }
}
