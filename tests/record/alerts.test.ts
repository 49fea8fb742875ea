import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { freshRecord } from '../helpers/record.ts';
import { type OfficialAlert, type RecordStore } from '../../src/record/index.ts';
import { HOUR, START } from './rows.ts';

const warning: OfficialAlert = {
  id: 'urn:1',
  lake: 'pine-hollow',
  issuer: 'Weather office',
  event: 'Wind Advisory',
  severity: 'Moderate',
  headline: 'Wind from the west',
  description: 'Line one\nline "two"',
  instruction: 'Stay off the open water.',
  onsetMs: START,
  endsMs: START + 12 * HOUR,
  expiresMs: START + 6 * HOUR,
};

let record: RecordStore;
beforeEach(async () => {
  record = await freshRecord();
});
afterEach(() => record.close());

const at = async (asOfMs: number) => {
  const { alerts, alertsCheckedMs } = await record.view('pine-hollow', asOfMs);
  return { ids: alerts.map(({ id }) => id), checked: alertsCheckedMs };
};

describe('official alerts', () => {
  it('tells "none" from "not asked"', async () => {
    expect(await at(START)).toEqual({ ids: [], checked: null });
    await record.putAlerts('pine-hollow', [], START);
    expect(await at(START + HOUR)).toEqual({ ids: [], checked: START });
  });

  it('come back word for word', async () => {
    await record.putAlerts('pine-hollow', [warning], START);
    expect((await record.view('pine-hollow', START)).alerts).toEqual([warning]);
  });

  it('are still shown when the check is too old, but the check no longer counts', async () => {
    await record.putAlerts('pine-hollow', [warning], START);
    expect(await at(START + 3 * HOUR)).toEqual({ ids: ['urn:1'], checked: START });
    expect(await at(START + 4 * HOUR)).toEqual({ ids: ['urn:1'], checked: null });
  });

  it('end with the event, not with the message that announced it', async () => {
    await record.putAlerts('pine-hollow', [warning], START);
    expect((await at(START + 11 * HOUR)).ids).toEqual(['urn:1']);
    expect((await at(START + 12 * HOUR)).ids).toEqual([]);
  });

  it('are gone once a later check no longer names them, and were there before', async () => {
    await record.putAlerts('pine-hollow', [warning], START);
    await record.putAlerts('pine-hollow', [], START + HOUR);
    expect((await at(START + HOUR)).ids).toEqual([]);
    expect((await at(START + HOUR - 1)).ids).toEqual(['urn:1']);
  });

  it('are not known before they were first heard of', async () => {
    await record.putAlerts('pine-hollow', [], START - HOUR);
    await record.putAlerts('pine-hollow', [warning], START);
    expect((await at(START - 1)).ids).toEqual([]);
  });
});
