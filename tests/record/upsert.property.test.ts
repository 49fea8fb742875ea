import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { freshRecord } from '../helpers/record.ts';
import { VARIABLES, type Observation, type RecordStore } from '../../src/record/index.ts';
import { judgeSeries } from '../../src/record/quality/index.ts';
import { HOUR, hourly, START } from './rows.ts';

const observation: fc.Arbitrary<Observation> = fc
  .record({
    variable: fc.constantFrom(...VARIABLES),
    station: fc.constantFrom('', 'S1', 'S2/00065'),
    kind: fc.constantFrom('observed' as const, 'analysis' as const, 'model' as const, 'forecast' as const),
    hour: fc.integer({ min: 0, max: 30 }),
    issue: fc.integer({ min: -3, max: 3 }),
    value: fc.double({ noNaN: true, noDefaultInfinity: true }),
    datum: fc.constantFrom(undefined, 'NAVD88'),
  })
  .map(({ hour, issue, datum, ...rest }) => ({
    ...rest,
    lake: 'pine-hollow',
    source: 'usgs',
    atMs: START + hour * HOUR,
    periodS: 0,
    issuedMs: rest.kind === 'forecast' ? START + issue * HOUR : null,
    ...(datum === undefined ? {} : { datum }),
  }));

/** One record for all: each history is of a lake of its own, of which the others are no part. */
let record: RecordStore;
let lakes = 0;
beforeAll(async () => {
  record = await freshRecord();
});
afterAll(() => record.close());

async function viewAfter(puts: readonly (readonly Observation[])[], asOfMs: number) {
  const lake = `pine-hollow-${(lakes += 1)}`;
  for (const rows of puts) await record.putObservations(rows.map((row) => ({ ...row, lake })));
  const { observations } = await record.view(lake, asOfMs);
  return observations.map((row) => ({ ...row, lake: 'pine-hollow' }));
}

describe('any mix of rows', () => {
  it('gives the same view in one reply, in pieces, and repeated', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.array(observation, { maxLength: 40 }),
        fc.integer({ min: 0, max: 40 }),
        fc.integer({ min: -5, max: 40 }),
        async (rows, cut, hour) => {
          const asOf = START + hour * HOUR;
          const whole = await viewAfter([rows], asOf);
          expect(await viewAfter([rows.slice(0, cut), rows.slice(cut), rows], asOf)).toEqual(
            await viewAfter([rows, rows], asOf),
          );
          expect(whole.every((o) => o.kind === 'forecast' || o.atMs <= asOf)).toBe(true);
          expect(whole.every((o) => (o.issuedMs ?? 0) <= asOf)).toBe(true);
        },
      ),
      { numRuns: 40 },
    );
  });
});

describe('quality control', () => {
  it('never changes, drops or reorders a value, and a second pass says the same', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...VARIABLES),
        fc.array(fc.double({ noNaN: true, min: -1e6, max: 1e6 }), { maxLength: 120 }),
        (variable, values) => {
          const rows = hourly(values, { variable });
          const once = judgeSeries([rows])[0] ?? [];
          expect(once.map(({ value }) => value)).toEqual(values);
          expect(judgeSeries([rows])[0] ?? []).toEqual(once);
        },
      ),
    );
  });

  it('catches a lone spike of 6 K wherever it falls in a healthy series', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 94 }), fc.boolean(), (at, up) => {
        const values = Array.from({ length: 96 }, (_, h) => 12 + Math.sin((h * Math.PI) / 12));
        values[at] = (values[at] ?? 0) + (up ? 6 : -6);
        const judged = judgeSeries([hourly(values)])[0] ?? [];
        expect(judged.filter(({ doubt }) => doubt !== undefined).map(({ atMs }) => atMs)).toEqual([
          START + at * HOUR,
        ]);
      }),
    );
  });
});
