/** Child of kill.test.ts: stores batch after batch and says so after each, until it is killed. */
import { writeSync } from 'node:fs';
import { openRecord } from '../../src/record/index.ts';
import { batch } from './batch.ts';

/** Returns only when the parent's pipe has taken the line: a line in this process's memory would die with it. */
function sayNow(line: string): void {
  for (;;) {
    try {
      writeSync(1, line);
      return;
    } catch (error) {
      if (!(error instanceof Error && 'code' in error && error.code === 'EAGAIN')) throw error;
    }
  }
}

const [path = '', first = '0'] = process.argv.slice(2);
const record = await openRecord(path);
for (let n = Number(first); ; n += 1) {
  await record.putObservations(batch(n));
  sayNow(`${n}\n`);
}
