/** The way of docs/operations.md to copy a record that is in use, and to go back to the copy. */
import { copyFileSync, mkdtempSync, readFileSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, it } from 'vitest';
import { addReader, DEFAULT_WISHES, linkSecret } from '../../src/delivery/index.ts';
import { listBriefings } from '../../src/record/schedule/briefings.ts';
import { openRecord } from '../../src/record/index.ts';
import { countOutbox } from '../../src/record/delivery/outbox.ts';
import { deliverPass, schedulePass } from '../../src/schedule/index.ts';
import { config, LOCAL_DATE, MORNING_MS } from '../delivery/kit.ts';
import { counting, deps } from './kit.ts';

const folder = mkdtempSync(join(tmpdir(), 'backup-'));
afterAll(() => rmSync(folder, { recursive: true }));

it('a copy taken in use restores readers, archive and what was sent, and mails nobody again', async () => {
  const clock = { ms: MORNING_MS };
  const path = join(folder, 'record.sqlite');
  const copy = join(folder, 'copy.sqlite');
  const record = await openRecord(path);
  const wishes = { ...DEFAULT_WISHES, lakes: ['ossarly'] };
  await addReader(record, 'ana@post.example', wishes, { knownLakes: ['ossarly'], nowMs: clock.ms });
  await schedulePass(deps(record, clock));
  await deliverPass(deps(record, clock));
  await record.upkeep.copyTo(copy);
  await addReader(record, 'later@post.example', wishes, { knownLakes: ['ossarly'], nowMs: clock.ms });
  await record.close();
  for (const end of ['', '-wal', '-shm']) rmSync(path + end, { force: true });
  copyFileSync(copy, path);

  const restored = await openRecord(path);
  const transport = counting(clock);
  clock.ms += 3_600_000;
  await schedulePass(deps(restored, clock, { transport }));
  await deliverPass(deps(restored, clock, { transport }));
  expect(transport.sent).toEqual([]);
  expect(await countOutbox(restored)).toMatchObject({ sent: 1, pending: 0 });
  expect((await listBriefings(restored, 'ossarly', 5)).map((b) => b.localDate)).toEqual([LOCAL_DATE]);
  const readers = await restored.db.selectFrom('readers').select('address').execute();
  expect(readers).toEqual([{ address: 'ana@post.example' }]);
  await restored.close();
});

it('the secret for links is made once, for its owner only, and a short one is refused', () => {
  const settings = config({ recordPath: join(folder, 'secret.sqlite') });
  const first = linkSecret(settings, {});
  expect(first).toMatch(/^[0-9a-f]{64}$/);
  expect(linkSecret(settings, {})).toBe(first);
  const path = `${settings.recordPath}.secret`;
  expect(readFileSync(path, 'utf8').trim()).toBe(first);
  expect(statSync(path).mode & 0o077).toBe(0);
  expect(linkSecret(settings, { SECRET: 'x'.repeat(32) })).toBe('x'.repeat(32));
  expect(() => linkSecret(settings, { SECRET: 'short' })).toThrow(/at least 32/);
});
