/** The tables alone: what an owner does once, before workers and pages with lesser rights begin. */
import { isServerRecord, serverAddress } from '../record/index.ts';
import { openEngine, silentLog } from '../schedule/index.ts';
import { withRecord } from './withRecord.ts';

/**
 * Makes the tables of the record, and on PostgreSQL those of the job engine; nothing is refreshed, issued or mailed.
 *
 * @throws ThawlineError `config`, `record`
 */
export async function prepare(options: { readonly config?: string }): Promise<void> {
  await withRecord(options.config, async (record, config) => {
    const { recordPath } = config;
    if (isServerRecord(recordPath)) {
      const address = serverAddress(recordPath, process.env);
      await (await openEngine(record, address, { log: silentLog() })).stop();
    }
    console.log(`${recordPath}: the tables are those of this version.`);
  });
}
