import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { sql } from 'kysely';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { openRecord } from '../../src/record/index.ts';
import { builtChild } from '../helpers/builtChild.ts';
import { BATCH_ROWS } from './batch.ts';
import { START, DAY } from './rows.ts';

/** 8 keep the suite short; `npm run test:long` takes 50. */
const KILLS = Number(process.env['THAWLINE_KILLS'] ?? 8);

let folder: string;
let writer: string;
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'record-kill-'));
  writer = await builtChild('tests/record/writer.ts');
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Runs the writer from a batch on, kills it with SIGKILL some time after its first word, returns what it had confirmed. */
async function writeAndKill(path: string, first: number, afterMs: number): Promise<number[]> {
  const child = spawn(process.execPath, [writer, path, String(first)], {
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  let said = '';
  const started = new Promise<void>((resolve, reject) => {
    child.stdout.on('data', (chunk: Buffer) => {
      said += chunk.toString();
      resolve();
    });
    child.on('exit', () => reject(new Error('the writer ended by itself')));
  });
  await started;
  await sleep(afterMs);
  const gone = new Promise((resolve) => child.once('close', resolve));
  child.kill('SIGKILL');
  await gone;
  return said.split('\n').slice(0, -1).map(Number);
}

/** Rows by batch as they are in the file, after SQLite's own check of it. */
async function stored(path: string): Promise<Map<number, number>> {
  const record = await openRecord(path);
  try {
    const check = await sql<{ integrity_check: string }>`pragma integrity_check`.execute(record.db);
    expect(check.rows).toEqual([{ integrity_check: 'ok' }]);
    const rows = await record.db.selectFrom('observation').select(['at_ms', 'value']).execute();
    const counts = new Map<number, number>();
    for (const { at_ms, value } of rows) {
      expect(Math.floor((at_ms - START) / DAY)).toBe(value);
      counts.set(value, (counts.get(value) ?? 0) + 1);
    }
    return counts;
  } finally {
    await record.close();
  }
}

it(`loses nothing confirmed and keeps no half reply over ${KILLS} kills at random moments`, async () => {
  // Two files at a time: the kills are independent, starting a process is what takes long.
  const lane = async (path: string, kills: number): Promise<number> => {
    const confirmed = new Set<number>();
    let next = 0;
    let inFlight = 0;
    for (let kill = 0; kill < kills; kill += 1) {
      for (const n of await writeAndKill(path, next, Math.random() * 60)) confirmed.add(n);
      const counts = await stored(path);
      expect([...counts.values()].every((count) => count === BATCH_ROWS)).toBe(true);
      for (const n of confirmed) expect(counts.has(n)).toBe(true);
      const unconfirmed = counts.size - confirmed.size;
      expect(unconfirmed).toBeLessThanOrEqual(kill + 1);
      inFlight = unconfirmed;
      next = Math.max(-1, ...counts.keys()) + 1;
    }
    expect(confirmed.size).toBeGreaterThan(kills);
    return inFlight;
  };
  await Promise.all([lane(join(folder, 'a.sqlite'), KILLS / 2), lane(join(folder, 'b.sqlite'), KILLS / 2)]);
}, 1_800_000);
