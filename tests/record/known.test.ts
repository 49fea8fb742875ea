/** The record keeps time twice: the instant a value is for, and the instant it was known. */
import fc from 'fast-check';
import { Kysely, sql } from 'kysely';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { freshRecord } from '../helpers/record.ts';
import { openRecord, type Observation, type RecordStore } from '../../src/record/index.ts';
import { sqliteRecord } from '../../src/record/dialect/index.ts';
import { migrate } from '../../src/record/migrate.ts';
import { MIGRATIONS } from '../../src/record/migrations/index.ts';
import type { Database } from '../../src/record/schema/index.ts';
import { DAY, HOUR, hourly, row, START } from './rows.ts';

let record: RecordStore;
beforeEach(async () => {
  record = await freshRecord();
});
afterEach(() => record.close());

const LAKE = 'pine-hollow';
async function values(asOfMs: number, options: { archive?: boolean } = {}): Promise<number[]> {
  return (await record.view(LAKE, asOfMs, options)).observations.map(({ value }) => value);
}

describe('a view as of an instant', () => {
  it('still says after a later revision what it said before', async () => {
    await record.putObservations([row({ value: 9 })], START + HOUR);
    expect(await values(START + 11 * HOUR)).toEqual([9]);
    await record.putObservations([row({ value: 12 })], START + 12 * HOUR);
    expect(await values(START + 11 * HOUR)).toEqual([9]);
    expect(await values(START + 12 * HOUR)).toEqual([12]);
  });

  it('does not know a value before it was fetched', async () => {
    await record.putObservations([row({ value: 9 })], START + 3 * HOUR);
    expect(await values(START + 2 * HOUR)).toEqual([]);
    expect(await values(START + 3 * HOUR)).toEqual([9]);
  });

  it('does not know a reading before it was given, nor its correction before that', async () => {
    const reading = { id: 'r', lake: LAKE, atMs: START, waterC: 9, depthM: 0.3, sdC: 0.5, where: 'ramp' };
    await record.putReading(reading, START + 5 * HOUR);
    await record.putReading({ ...reading, waterC: 8 }, START + 7 * HOUR);
    const at = async (ms: number) => (await record.view(LAKE, ms)).readings.map(({ waterC }) => waterC);
    expect(await at(START + 4 * HOUR)).toEqual([]);
    expect(await at(START + 6 * HOUR)).toEqual([9]);
    expect(await at(START + 7 * HOUR)).toEqual([8]);
    expect(await record.removeReading('r')).toBe(true);
    // What somebody gave and takes back leaves the past too.
    expect(await at(START + 6 * HOUR)).toEqual([]);
  });

  it('keeps an issue of a forecast as it was before the service changed it', async () => {
    const issue = (value: number) =>
      row({ kind: 'forecast', issuedMs: START, atMs: START + 9 * HOUR, value });
    await record.putObservations([issue(20)], START + HOUR);
    await record.putObservations([issue(25)], START + 3 * HOUR);
    expect(await values(START)).toEqual([]);
    expect(await values(START + 2 * HOUR)).toEqual([20]);
    expect(await values(START + 3 * HOUR)).toEqual([25]);
  });

  it('averages the days of a level from what was known', async () => {
    const level = (value: number) => hourly(new Array<number>(24).fill(value), { variable: 'level' });
    await record.putObservations(level(200), START + DAY);
    await record.putObservations(level(200.1), START + 3 * DAY);
    const mean = async (ms: number) =>
      (await record.view(LAKE, ms, { levelRowDays: 1 })).levelDays?.map(({ levelM }) => levelM);
    expect(await mean(START + 2 * DAY)).toEqual([200]);
    expect((await mean(START + 4 * DAY))?.[0]).toBeCloseTo(200.1, 6);
  });

  it('takes what an archive brought later only where it is asked to', async () => {
    await record.putObservations([row({ value: 9 })], START + 30 * DAY);
    expect(await values(START + DAY)).toEqual([]);
    expect(await values(START + DAY, { archive: true })).toEqual([9]);
    // Something known by then comes before an archive's value.
    const other = row({ value: 5, atMs: START + HOUR });
    await record.putObservations([other], START + 2 * HOUR);
    await record.putObservations([{ ...other, value: 6 }], START + 40 * DAY);
    expect(await values(START + DAY, { archive: true })).toEqual([9, 5]);
  });
});

describe('random histories', () => {
  interface Arrival {
    readonly knownMs: number;
    readonly put: (to: RecordStore, lake: string) => Promise<unknown>;
  }
  const hour = fc.integer({ min: 0, max: 48 });
  const late = fc.integer({ min: 0, max: 72 });
  const observation: fc.Arbitrary<Arrival> = fc
    .record({
      hour,
      late,
      kind: fc.constantFrom('observed' as const, 'model' as const, 'forecast' as const),
      variable: fc.constantFrom('water_temp' as const, 'level' as const),
      value: fc.integer({ min: 5, max: 15 }),
    })
    .map(({ hour: h, late: l, kind, variable, value }) => {
      const issuedMs = kind === 'forecast' ? START + Math.floor(h / 6) * 6 * HOUR : null;
      const atMs = START + h * HOUR + (kind === 'forecast' ? 6 * HOUR : 0);
      const one: Observation = row({ kind, variable, value, atMs, issuedMs });
      const knownMs = (issuedMs ?? atMs) + l * HOUR;
      return { knownMs, put: (to, of) => to.putObservations([{ ...one, lake: of }], knownMs) };
    });
  const reading: fc.Arbitrary<Arrival> = fc
    .record({ id: fc.constantFrom('a', 'b'), hour, late, waterC: fc.integer({ min: 5, max: 15 }) })
    .map(({ id, hour: h, late: l, waterC }) => {
      const knownMs = START + (h + l) * HOUR;
      const one = { atMs: START + h * HOUR, waterC, depthM: 0.3, sdC: 0.5, where: 'ramp' };
      return { knownMs, put: (to, of) => to.putReading({ ...one, id: `${of} ${id}`, lake: of }, knownMs) };
    });
  const alerts: fc.Arbitrary<Arrival> = fc
    .record({ hour, names: fc.subarray(['wind', 'heat']), text: fc.constantFrom('first', 'second') })
    .map(({ hour: h, names, text }) => {
      const knownMs = START + h * HOUR;
      const list = names.map((id) => ({
        id,
        issuer: 'office',
        event: id,
        severity: 'Moderate',
        headline: text,
        description: '',
        instruction: '',
        onsetMs: null,
        endsMs: null,
        expiresMs: null,
      }));
      const of = (lake: string) => list.map((one) => ({ ...one, lake, id: `${lake} ${one.id}` }));
      return { knownMs, put: (to, lake) => to.putAlerts(lake, of(lake), knownMs) };
    });
  const flood: fc.Arbitrary<Arrival> = fc
    .record({ hour, late, observed: fc.constantFrom('none' as const, 'minor' as const) })
    .map(({ hour: h, late: l, observed }) => {
      const knownMs = START + (h + l) * HOUR;
      const one = {
        station: 'S',
        observed,
        forecast: 'none' as const,
        atMs: START + h * HOUR,
        thresholdsM: {},
      };
      return { knownMs, put: (to, of) => to.putFloods([{ ...one, lake: of }], knownMs) };
    });

  it('give the same view as of an instant, whatever arrives later', async () => {
    let lakes = 0;
    await fc.assert(
      fc.asyncProperty(
        fc.array(fc.oneof(observation, reading, alerts, flood), { maxLength: 40 }),
        fc.integer({ min: 0, max: 120 }),
        fc.boolean(),
        async (arrivals, asOfHour, isLevelAveraged) => {
          const asOfMs = START + asOfHour * HOUR + 1;
          const inOrder = [...arrivals].sort((a, b) => a.knownMs - b.knownMs);
          const options = isLevelAveraged ? { levelRowDays: 1 } : {};
          // Each history is of a lake of its own, of which the others are no part.
          const lake = `${LAKE}-${(lakes += 1)}`;
          for (const { knownMs, put } of inOrder) if (knownMs <= asOfMs) await put(record, lake);
          const before = await record.view(lake, asOfMs, options);
          for (const { knownMs, put } of inOrder) if (knownMs > asOfMs) await put(record, lake);
          expect(await record.view(lake, asOfMs, options)).toEqual(before);
          // A season of views from memory says the same as the record, with and without what archives brought.
          const window = await record.window(lake, asOfMs - 60 * DAY, START + 60 * DAY);
          for (const archive of [false, true])
            expect(await window.view(lake, asOfMs, { ...options, archive })).toEqual(
              await record.view(lake, asOfMs, { ...options, archive }),
            );
        },
      ),
      { numRuns: 60 },
    );
  });
});

describe('a record of the version before', () => {
  it('knows its values since they were first fetched, older ones since their own instant, and says which', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'record-known-'));
    const path = join(folder, 'record.sqlite');
    const db = new Kysely<Database>({ dialect: sqliteRecord(path).dialect });
    await migrate(db, path, START, () => Promise.resolve(), MIGRATIONS.slice(0, 2));
    await db.transaction().execute(async (trx) => {
      for (const statement of [
        `insert into series values (1, '${LAKE}', 'water_temp', 'usgs', 'S1', 'observed', 0, '')`,
        `insert into retrieval (lake, source, at_ms, ok, duration_ms, bytes, problem) values
          ('${LAKE}', 'usgs', ${START}, 1, 1, 1, ''), ('${LAKE}', 'usgs', ${START + 2 * HOUR}, 0, 1, 1, 'down'),
          ('${LAKE}', 'usgs', ${START + 3 * HOUR}, 1, 1, 1, '')`,
        `insert into observation values (1, ${START - HOUR}, 7, null, null, 'ice'), (1, ${START + HOUR}, 8, null, null, null)`,
        `insert into reading values ('r', '${LAKE}', ${START}, 9, null, 0.3, 0.5, 'ramp', null)`,
      ])
        await sql.raw(statement).execute(trx);
    });
    await db.destroy();
    const migrated = await openRecord(path);
    const rows = await migrated.db
      .selectFrom('observation')
      .select(['value', 'known_s', 'known_how'])
      .orderBy('at_ms')
      .execute();
    expect(rows).toEqual([
      { value: 7, known_s: 0, known_how: 1 },
      { value: 8, known_s: 2 * 3600, known_how: null },
    ]);
    const early = await migrated.view(LAKE, START + 2 * HOUR);
    expect(early.observations.map(({ value, doubt }) => [value, doubt])).toEqual([
      [7, { code: 'doubt.stated', text: 'ice' }],
    ]);
    expect(early.readings.map(({ waterC }) => waterC)).toEqual([9]);
    await migrated.close();
    rmSync(folder, { recursive: true });
  });
});
