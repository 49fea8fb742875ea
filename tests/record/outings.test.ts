/** Outings belong to their reader: kept whole, told once, and gone with who told them. */
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { addReader, eraseAddress } from '../../src/delivery/index.ts';
import { openRecord, outingsOf, putOutings, removeOuting, type RecordStore } from '../../src/record/index.ts';
import { freshRecord, RECORD_KIND } from '../helpers/record.ts';
import { entry, NOW } from '../outings/kit.ts';

let folder: string;
let path: string;
let record: RecordStore;
let ann: string;
let ben: string;
const reader = async (address: string): Promise<string> =>
  (await addReader(record, address, { lakes: ['pine-hollow'] }, { knownLakes: ['pine-hollow'], nowMs: NOW }))
    .id;
beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'record-outings-'));
  path = join(folder, 'record.sqlite');
  record = RECORD_KIND === 'sqlite' ? await openRecord(path) : await freshRecord();
  ann = await reader('ann@example.org');
  ben = await reader('ben@example.org');
});
afterEach(async () => {
  await record.close();
  rmSync(folder, { recursive: true, force: true });
});

const put = (...entries: Parameters<typeof putOutings>[1]): Promise<number> =>
  putOutings(record, entries, NOW);

describe('outings in the record', () => {
  it('come back as they were told, with their reading among those of the lake', async () => {
    const told = entry({ shared: true }, ann);
    expect(await put(told)).toBe(1);
    expect(await outingsOf(record, { readerId: ann })).toEqual([told.outing]);
    expect(await record.readings('pine-hollow')).toEqual([told.reading]);
  });

  it('know of blank days, and of what was left unsaid', async () => {
    const told = entry(
      {
        fish: '0',
        bites: '',
        biggest: '',
        water: '',
        clarity: '',
        from: '',
        to: '',
        hours: '3',
        places: [],
        lures: [],
      },
      ann,
    );
    await put(told);
    expect(await outingsOf(record, { lake: 'pine-hollow' })).toEqual([told.outing]);
    expect(await record.readings('pine-hollow')).toEqual([]);
  });

  it('are shown to others only where their reader shares them', async () => {
    await put(entry({ shared: true }, ann), entry({}, ben));
    const shared = await outingsOf(record, { lake: 'pine-hollow', sharedOnly: true });
    expect(shared.map(({ readerId }) => readerId)).toEqual([ann]);
  });

  it('told again word for word are one', async () => {
    await put(entry({}, ann));
    expect(await put(entry({}, ann))).toBe(0);
    expect(await outingsOf(record, { readerId: ann })).toHaveLength(1);
  });

  it('told again with another catch, or for hours already told, are refused, and nothing of them is stored', async () => {
    await put(entry({}, ann));
    const other = entry({ date: '2026-03-04' }, ann);
    await expect(put(other, entry({ fish: '3' }, ann))).rejects.toThrow(
      'was told before, with other results',
    );
    await expect(put(other, entry({ from: '10:30', to: '12:00' }, ann))).rejects.toThrow('overlap');
    expect(await outingsOf(record, { readerId: ann })).toHaveLength(1);
    expect(await record.readings('pine-hollow')).toHaveLength(1);
    // Somebody else was there at the same time.
    expect(await put(entry({}, ben))).toBe(1);
  });

  it('of one day never last longer than it', async () => {
    const long = (hours: string, place: string) => entry({ from: '', to: '', hours, places: [place] }, ann);
    await put(long('13', 'bluff'));
    await expect(put(long('12', 'dock'))).rejects.toThrow('25.0 hours of fishing');
  });

  it('can be taken back by their reader, with the reading, and by nobody else', async () => {
    const { outing } = entry({}, ann);
    await put(entry({}, ann));
    expect(await removeOuting(record, outing.id, ben)).toBe(false);
    expect(await removeOuting(record, outing.id, ann)).toBe(true);
    expect(await outingsOf(record, { readerId: ann })).toEqual([]);
    expect(await record.readings('pine-hollow')).toEqual([]);
  });

  // A file's bytes can be looked at; a server's are its own (docs/many-machines.md, "What was erased").
  it.skipIf(RECORD_KIND !== 'sqlite')(
    'are erased with their reader, from the file and its log too, and those of others stay',
    async () => {
      await put(entry({ note: 'the leaning cypress' }, ann), entry({ note: 'the red barn' }, ben));
      const hits = (text: string): number =>
        ['', '-wal', '-shm']
          .map((end) => path + end)
          .filter((file) => existsSync(file))
          .reduce((n, file) => n + readFileSync(file, 'latin1').split(text).length - 1, 0);
      expect(hits('leaning cypress')).toBeGreaterThan(0);
      await eraseAddress(record, 'ann@example.org', NOW);
      expect(hits('leaning cypress')).toBe(0);
      expect(hits('red barn')).toBeGreaterThan(0);
      expect((await record.readings('pine-hollow')).map(({ id }) => id)).toEqual([
        entry({}, ben).reading?.id,
      ]);
    },
  );
});
