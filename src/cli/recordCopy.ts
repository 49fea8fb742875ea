/** `thawline record copy`: a club's record moves to a database that many machines share. */
import { loadConfig } from '../config/index.ts';
import { copyRecord, isServerRecord, openRecord, refuseInUse } from '../record/index.ts';
import { ThawlineError } from '../units/index.ts';
import { progress } from './output.ts';

export interface CopyOptions {
  readonly config?: string;
  readonly json?: boolean;
  readonly to: string;
  readonly addressEnv: string;
}

export async function copy(options: CopyOptions): Promise<void> {
  if (options.to !== 'postgres') throw new ThawlineError('usage', `--to is postgres, not "${options.to}".`);
  const { recordPath } = await loadConfig(options.config);
  if (isServerRecord(recordPath))
    throw new ThawlineError(
      'usage',
      'The record of this configuration is in PostgreSQL already: name the file as "record" for the copy.',
    );
  // What is written after its table was sent would not be there, and nothing would say so.
  refuseInUse(recordPath);
  const from = await openRecord(recordPath);
  try {
    const to = await openRecord(`postgres:${options.addressEnv}`);
    try {
      const say = progress();
      const sent = new Map<string, number>();
      const tables = await copyRecord(from, to, recordPath, (table, rows) => {
        sent.set(table, (sent.get(table) ?? 0) + rows);
        say?.(`${table}: ${sent.get(table) ?? 0} rows`);
      });
      if (options.json === true) console.log(JSON.stringify(tables, null, 2));
      else {
        for (const { table, rows, checksum } of tables)
          console.log(`${table.padEnd(16)} ${String(rows).padStart(10)} rows  ${checksum.slice(0, 16)}`);
        console.log(
          `All of ${recordPath} is in PostgreSQL, alike by counts and checksums. Write record: postgres:${options.addressEnv} into the configuration; the file stays as it is.`,
        );
      }
    } finally {
      await to.close();
    }
  } finally {
    await from.close();
  }
  refuseInUse(recordPath);
}
