import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { addJobsCommands } from '../../src/cli/jobs.ts';
import { claimOutbox, countOutbox, finishOutbox } from '../../src/record/delivery/outbox.ts';
import { openRecord, type RecordStore } from '../../src/record/index.ts';
import { noteFailure } from '../../src/record/schedule/failures.ts';
import { enqueue } from '../../src/delivery/index.ts';
import { addDays } from '../../src/units/time/calendar.ts';
import { localDateAt } from '../../src/units/time/localTime.ts';
import { addReaders } from '../delivery/kit.ts';
import { commandLine, type Said } from '../helpers/commandLine.ts';

const ZONE = 'America/Chicago';
let folder: string;
let config: string;
let record: RecordStore;
beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'jobs-'));
  config = join(folder, 'thawline.yaml');
  writeFileSync(
    config,
    `record: ${join(folder, 'record.sqlite')}\nlakes:\n  - { id: ossarly, name: Lake Ossarly, position: { lat: 36, lon: -92 }, zone: ${ZONE}, waterBody: highland-reservoir, meanDepth: 18 m, area: 80 km2, weather: [open-meteo] }\n`,
  );
  record = await openRecord(join(folder, 'record.sqlite'));
});
afterEach(async () => {
  await record.close();
  rmSync(folder, { recursive: true });
});

const jobs = (...words: string[]): Promise<Said> =>
  commandLine(addJobsCommands, '--config', config, 'jobs', ...words);

/** A mail of a date that was given up. @returns its name */
async function givenUp(localDate: string): Promise<string> {
  const nowMs = Date.now();
  const issue = { lakeId: 'ossarly', localDate, edition: 'morning', zone: ZONE } as const;
  await enqueue(record, { ...issue, issuedMs: nowMs - 1000, graceMs: 3_600_000 });
  const [row] = await claimOutbox(record, { owner: 'x', nowMs, leaseMs: 60_000, limit: 1 });
  if (row === undefined) throw new Error('nothing was queued');
  await finishOutbox(record, row, 'x', { state: 'failed', nowMs, smtpCode: 554, problem: 'Refused.' });
  return `mail-${row.id}`;
}

describe('thawline jobs', () => {
  const today = (): string => localDateAt(Date.now(), ZONE);

  it('says so when nothing has failed', async () => {
    expect(await jobs()).toEqual({ code: 0, out: 'Nothing has failed for good.\n', err: '' });
  });

  it('shows what failed for good, and tries it again or lets it go by its name', async () => {
    const failure = { problem: 'The disk is full.', nowMs: Date.now(), waitMs: () => 0 };
    for (let n = 0; n < 5; n += 1)
      for (const queue of ['retention', 'webhooks'])
        await noteFailure(record, { queue, key: queue }, failure);
    const { out } = await jobs();
    const listed = JSON.parse((await jobs('list', '--json')).out) as {
      work: { id: string }[];
      mails: unknown[];
    };
    expect(listed.work.map(({ id }) => id).sort()).toEqual(['job-1', 'job-2']);
    expect(listed.mails).toEqual([]);
    expect(out).toMatch(/^job-1: retention retention has failed 5 times since .* The disk is full\./m);
    expect((await jobs('retry', 'job-1')).out).toMatch(/is tried again at the next turn/);
    expect((await jobs('drop', 'job-2')).out).toMatch(/is let go/);
    expect((await jobs()).out).toBe('Nothing has failed for good.\n');
  });

  it('sends a mail of today again that was given up, and none of a morning that is over', async () => {
    await addReaders(record, 1);
    const [old, mail] = [await givenUp(addDays(today(), -1)), await givenUp(today())];
    const { out } = await jobs();
    expect(out).toContain(`${mail}: ossarly ${today()} morning for reader`);
    expect(out).not.toContain(old);
    expect(out).not.toContain('@');
    const refused = await jobs('retry', old);
    expect([refused.code, refused.err]).toEqual([
      2,
      expect.stringMatching(/not sent late\. Nothing was changed/),
    ]);
    await jobs('retry', mail);
    expect(await countOutbox(record)).toMatchObject({ pending: 1, failed: 1 });
  });

  it.each([
    ['retry', 'mail-99'],
    ['drop', 'mail-1'],
    ['retry', 'job-1'],
    ['drop', 'everything'],
  ])('refuses to %s what has not failed: %s', async (decision, name) => {
    const { code, err } = await jobs(decision, name);
    expect([code, err]).toEqual([2, expect.stringMatching(/see `thawline jobs`/)]);
  });
});
