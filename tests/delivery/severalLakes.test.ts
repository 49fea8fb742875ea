import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { drain, packRendering, type MailTransport } from '../../src/delivery/index.ts';
import { cardCache } from '../../src/delivery/outgoing.ts';
import { DEFAULT_WISHES, newRow } from '../../src/delivery/readers.ts';
import { insertReader, lakesOfReaders } from '../../src/record/delivery/readers.ts';
import type { RecordStore } from '../../src/record/index.ts';
import { storeBriefing } from '../../src/record/schedule/briefings.ts';
import { freshRecord } from '../helpers/record.ts';
import { addReaders, address, drainDeps, issueMorning, LOCAL_DATE, MORNING_MS, rendered } from './kit.ts';

const VIEW = { units: 'us', form: 'full', language: null, fishing: null } as const;

describe('a reader of several lakes', () => {
  let record: RecordStore;
  let sent: { to: string; text: string }[];
  const transport: MailTransport = {
    kind: 'smtp',
    connections: 1,
    verify: () => Promise.resolve(),
    send: ({ to, text }) => {
      sent.push({ to: JSON.stringify(to), text: typeof text === 'string' ? text : '' });
      return Promise.resolve({ response: '250 ok' });
    },
    close: () => Promise.resolve(),
  };

  beforeEach(async () => {
    record = await freshRecord();
    sent = [];
    const [alone] = await addReaders(record, 1);
    const wishes = { ...DEFAULT_WISHES, lakes: ['ossarly', 'pine-hollow', 'tarn'] };
    const row = newRow('several@post.example', wishes, {
      state: 'active',
      origin: 'operator',
      nowMs: MORNING_MS - 1e6,
    });
    await insertReader(record, row, wishes.lakes);
    expect(await lakesOfReaders(record, [row.id, alone ?? ''])).toEqual(
      new Map([
        [row.id, ['ossarly', 'pine-hollow', 'tarn']],
        [alone, ['ossarly']],
      ]),
    );
    const key = { lakeId: 'pine-hollow', localDate: LOCAL_DATE, edition: 'morning' } as const;
    const json = packRendering(rendered({ card: 'Pine Hollow, Fri 6 Mar\n6 to 11 am Point; jig' }));
    await storeBriefing(record, key, {
      issuedMs: MORNING_MS,
      documentJson: '{}',
      renderings: (['us', 'metric'] as const).map((units) => ({ units, form: 'full' as const, json })),
    });
    await issueMorning(record);
  });
  afterEach(() => record.close());

  it('is not told for the rest of a mailing that a lake is not out, once it is', async () => {
    const cache = cardCache(record);
    const key = { lakeId: 'tarn', localDate: LOCAL_DATE, edition: 'morning' } as const;
    expect(await cache(key, VIEW)).toBeUndefined();
    const json = packRendering(rendered({ card: 'Tarn, Fri 6 Mar' }));
    const renderings = [{ units: 'us', form: 'full', json }] as const;
    await storeBriefing(record, key, { issuedMs: MORNING_MS, documentJson: '{}', renderings });
    expect(await cache(key, VIEW)).toBe('Tarn, Fri 6 Mar');
  });

  it('finds the fronts of the others first in each mail, and how many are not out; others find nothing of it', async () => {
    await drain(record, drainDeps(transport, { ms: MORNING_MS }));
    expect(sent).toHaveLength(2);
    const several = sent.find(({ to }) => to.includes('several@'));
    expect(several?.text).toMatch(
      /^YOUR OTHER LAKES TODAY\n {2}Pine Hollow, Fri 6 Mar\n {2}6 to 11 am Point; jig\n/,
    );
    expect(several?.text).toContain('One more is not out yet.');
    expect(sent.find(({ to }) => to.includes(address(0)))?.text).not.toContain('OTHER LAKES');
  });
});
