/** Whose outings: a reader by their address, also one of the configuration who never had a mail yet. */
import type { Config } from '../../config/index.ts';
import { readerByAddress } from '../../record/delivery/index.ts';
import { normalAddress, syncConfigReaders, toReader, type Reader } from '../../delivery/index.ts';
import type { RecordStore } from '../../record/index.ts';
import { ThawlineError } from '../../units/index.ts';

/** @throws ThawlineError `usage` when nobody of this address reads a briefing */
export async function readerOf(
  { record, config }: { readonly record: RecordStore; readonly config: Config },
  address: string,
): Promise<Reader> {
  const wanted = normalAddress(address);
  const known = await readerByAddress(record, wanted);
  if (known !== undefined) return toReader(known);
  // Readers of the configuration are in the record once a briefing was sent.
  if (config.readers.some((one) => normalAddress(one.address) === wanted)) {
    await syncConfigReaders(record, config, Date.now());
    const now = await readerByAddress(record, wanted);
    if (now !== undefined) return toReader(now);
  }
  throw new ThawlineError(
    'usage',
    'Nobody of this address reads a briefing here, and an outing belongs to a reader: "thawline readers list" names them, "thawline readers add" adds one.',
  );
}
