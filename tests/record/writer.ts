/** Child of kill.test.ts: stores batch after batch and says so after each, until it is killed. */
import { openRecord } from '../../src/record/index.ts';
import { batch } from './batch.ts';

const [path = '', first = '0'] = process.argv.slice(2);
const record = await openRecord(path);
for (let n = Number(first); ; n += 1) {
  await record.putObservations(batch(n));
  process.stdout.write(`${n}\n`);
}
