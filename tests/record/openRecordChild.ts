/** Child of file.test.ts: writes, makes a backup, writes on, and keeps the record open until it is told to close it. */
import { join, dirname } from 'node:path';
import { openRecord } from '../../src/record/index.ts';
import { hourly } from './rows.ts';

const [path = ''] = process.argv.slice(2);
const record = await openRecord(path);
await record.putObservations(hourly([1, 2]));
await record.upkeep.copyTo(join(dirname(path), 'backup.sqlite'));
await record.putObservations(hourly([9, 9]));
process.send?.('open');
process.once('message', () => {
  void record.close().then(() => process.exit(0));
});
