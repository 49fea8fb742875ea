/** A record's own view and the same rows put together by hand say the same. */
import { describe, expect, it } from 'vitest';
import { viewOver, type SeriesColumns } from '../../src/record/observations/columns.ts';
import type { Observation, RecordView } from '../../src/record/types.ts';
import { columnsOf, measuredSince, readSignals } from '../../src/signals/index.ts';
import { gauge, observation, recordView, testLake } from '../helpers/weatherRecord.ts';

const AS_OF = '2026-03-06T11:15:00Z';
const HOUR = 3_600_000;
const LAST = Date.parse('2026-03-06T11:00:00Z');
const doubt = { code: 'doubt.spike' } as const;

/** The same view over columns, as a record gives it. */
function stored(view: RecordView): RecordView {
  const series = new Map<string, Observation[]>();
  for (const row of view.observations) {
    const { variable, source, station, kind, periodS, issuedMs } = row;
    const key = JSON.stringify([variable, source, station, kind, periodS, issuedMs]);
    const rows = series.get(key);
    if (rows === undefined) series.set(key, [row]);
    else rows.push(row);
  }
  const columns = [...series.values()].flatMap((rows): SeriesColumns[] => {
    const [first] = rows;
    if (first === undefined) return [];
    return [
      {
        ...first,
        datum: first.datum ?? '',
        atMs: Float64Array.from(rows, ({ atMs }) => atMs),
        values: Float64Array.from(rows, ({ value }) => value),
        doubts: new Map(rows.flatMap((row, i) => (row.doubt === undefined ? [] : [[i, row.doubt] as const]))),
      },
    ];
  });
  const { observations: _, ...rest } = view;
  return viewOver(columns, rest);
}

const level = gauge('level', LAST, 5, (back) => 100 - back / 100);
const spiked = level.map((row, i) => (i % 9 === 4 ? { ...row, value: 900, doubt } : row));
const allDoubted = gauge('water_temp', LAST, 5, () => 30).map((row) => ({ ...row, doubt }));
const both = (extra: readonly Observation[]): [RecordView, RecordView] => {
  const view = recordView({ asOf: AS_OF, pastDays: 20, extra });
  return [view, stored(view)];
};

describe('a view of a record', () => {
  it('gives the signals that its rows give, without the values that are not believed', () => {
    const [rows, columns] = both([...spiked, ...allDoubted]);
    const report = readSignals(columns, testLake);
    expect(report).toEqual(readSignals(rows, testLake));
    expect(report.conditions.signals.levelM?.value).toBeCloseTo(100, 9);
    expect(columnsOf(columns).of('water_temp')).toEqual([]);
    expect(columnsOf(columns).doubted).toHaveLength(columnsOf(rows).doubted.length);
  });

  it('may be put together in any order', () => {
    const view = recordView({ asOf: AS_OF, pastDays: 20, extra: level });
    const backwards = { ...view, observations: [...view.observations].reverse() };
    const { conditions } = readSignals(backwards, testLake);
    const { airMean24hC, level24hM } = readSignals(view, testLake).conditions.signals;
    expect(conditions.signals.level24hM).toEqual(level24hM);
    expect(conditions.signals.airMean24hC?.value).toBeCloseTo(airMean24hC?.value ?? Number.NaN, 9);
  });

  it('of what was measured since an instant holds nothing older, and no model’s past, whichever way it came', () => {
    const since = LAST - 24 * HOUR;
    for (const view of both([...level, observation('level', LAST - 40 * HOUR, 1, { station: 'USGS-2' })])) {
      const recent = measuredSince(view, since);
      expect(recent.observations.every(({ atMs, kind }) => atMs > since && kind !== 'model')).toBe(true);
      expect(
        columnsOf(recent)
          .of('level')
          .map(({ station, atMs }) => [station, atMs.length]),
      ).toEqual([['USGS-1', 24]]);
      expect(
        columnsOf(recent)
          .of('air_temp')
          .map(({ kind }) => kind),
      ).toEqual(['forecast']);
    }
  });
});
