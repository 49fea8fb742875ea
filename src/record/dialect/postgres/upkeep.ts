import { ThawlineError } from '../../../units/index.ts';
import type { Upkeep } from '../upkeep.ts';

/** A server keeps its own files in order, and is copied with its own tools. */
export const serverUpkeep: Upkeep = {
  shrink: () => Promise.resolve(),
  copyTo: () =>
    Promise.reject(
      new ThawlineError(
        'usage',
        'The record is in PostgreSQL: copy it with pg_dump and bring it back with pg_restore (docs/many-machines.md, "Backup and restore").',
      ),
    ),
  truncateLog: () => Promise.resolve(true),
  complaint: () => Promise.resolve(''),
  isStillThere: () => true,
};
