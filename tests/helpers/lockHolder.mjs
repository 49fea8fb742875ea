/**
 * Another process in the way: takes the write lock of an SQLite file again and again.
 * node lockHolder.mjs FILE '[[pauseMs, holdMs], ...]' [once] ; says "held" and "freed" as it goes.
 */
import { setTimeout as sleep } from 'node:timers/promises';
import { DatabaseSync } from '@photostructure/sqlite';

const [file, plan] = process.argv.slice(2);
const db = new DatabaseSync(file, { timeout: 60_000 });
for (const [pauseMs, holdMs] of JSON.parse(plan)) {
  await sleep(pauseMs);
  db.exec('begin immediate');
  console.log('held');
  await sleep(holdMs);
  db.exec('rollback');
  console.log('freed');
}
