/** The one way in for outings, whether from a command, a file or a page: whose they are, whether they may be, and stored whole. */
import type { LakeConfig } from '../../config/index.ts';
import type { Reader } from '../../delivery/index.ts';
import { putOutings, type OutingEntry, type RecordStore } from '../../record/index.ts';
import { ThawlineError } from '../../units/index.ts';
import type { LakeRefusal } from '../../words/index.ts';

/**
 * Stores outings of a reader, all or none; the readings among them are known to the lake from now on.
 *
 * @returns how many were new
 * @throws ThawlineError `usage` when the reader is none of this lake's, or an outing was told before
 */
export async function takeOutings(
  record: RecordStore,
  lake: LakeConfig,
  reader: Reader,
  entries: readonly OutingEntry[],
  nowMs: number,
): Promise<number> {
  refuseStranger(lake, reader);
  return putOutings(record, entries, nowMs);
}

/** @throws ThawlineError `usage` when the reader does not read this lake's briefing */
export function refuseStranger(lake: LakeConfig, reader: Reader): void {
  if (reader.state !== 'active')
    throw new ThawlineError(
      'usage',
      'This reader gets no briefings at present, so outings cannot be told for them. Nothing was stored.',
      { fact: { code: 'reader.resting' } satisfies LakeRefusal },
    );
  if (!reader.lakes.includes(lake.id))
    throw new ThawlineError(
      'usage',
      `This reader does not read the briefing of ${lake.name} (but of ${reader.lakes.join(', ')}): tell the outing for one of those, or add the lake in the reader's settings. Nothing was stored.`,
      {
        fact: { code: 'lake.notTheirs', lake: lake.name, theirs: reader.lakes } satisfies LakeRefusal,
      },
    );
}
