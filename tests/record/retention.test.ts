import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { openRecord, RETENTION_DAYS, type RecordStore } from '../../src/record/index.ts';
import { DAY, HOUR, hourly, row, START } from './rows.ts';

let record: RecordStore;
beforeEach(async () => {
  record = await openRecord(':memory:');
});
afterEach(() => record.close());

const issue = (issuedMs: number) => row({ kind: 'forecast', issuedMs, atMs: issuedMs + DAY });

async function issuesLeft(): Promise<number[]> {
  const rows = await record.db.selectFrom('forecast').select('issued_ms').orderBy('issued_ms').execute();
  return rows.map(({ issued_ms }) => issued_ms);
}

describe('compacting', () => {
  it('thins old forecasts to the first of each day and drops the oldest', async () => {
    await record.putObservations([0, 6, 12, 24].map((h) => issue(START + h * HOUR)));
    await record.compact(START + RETENTION_DAYS.everyIssue * DAY);
    expect(await issuesLeft()).toHaveLength(4);
    const gone = await record.compact(START + (RETENTION_DAYS.everyIssue + 2) * DAY);
    expect(gone.forecastRows).toBe(2);
    expect(await issuesLeft()).toEqual([START, START + DAY]);
    await record.compact(START + (RETENTION_DAYS.dailyIssue + 0.5) * DAY);
    expect(await issuesLeft()).toEqual([START + DAY]);
  });

  it('never removes a measured value or a reading, however old', async () => {
    const rows = hourly([1, 2, 3]);
    const reading = {
      id: 'r',
      lake: 'pine-hollow',
      atMs: START,
      waterC: 9,
      depthM: 0.3,
      sdC: 0.5,
      where: 'ramp',
    };
    await record.putObservations(rows);
    await record.putReading(reading);
    await record.compact(START + 4000 * DAY);
    const view = await record.view('pine-hollow', START + DAY);
    expect(view.observations).toEqual(rows);
    expect(view.readings).toEqual([reading]);
  });

  it('drops the retrieval log and validators past their time, and only those', async () => {
    const attempt = {
      lake: 'pine-hollow',
      source: 'usgs',
      ok: true,
      status: 200,
      durationMs: 1,
      bytes: 1,
      problem: '',
    };
    await record.putRetrievals([
      { ...attempt, atMs: START },
      { ...attempt, atMs: START + 2 * DAY },
    ]);
    await record.validators.set('http://127.0.0.1/', { etag: '"1"' });
    const gone = await record.compact(START + (RETENTION_DAYS.retrievals + 1) * DAY);
    expect(gone).toMatchObject({ retrievals: 1 });
    expect(await record.lastRefreshMs('pine-hollow')).toBe(START + 2 * DAY);
    expect((await record.compact(Date.now())).validators).toBe(
      (await record.validators.get('http://127.0.0.1/')) === undefined ? 1 : 0,
    );
  });
});
