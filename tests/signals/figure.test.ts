/** A number that may be printed, and where it is from. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Observation } from '../../src/record/types.ts';
import { figure, mean, ramp, signalsFrom, sum, type Provenance } from '../../src/signals/figure.ts';
import { sourcesOf } from '../../src/signals/sources.ts';
import { observation, recordView } from '../helpers/weatherRecord.ts';

const AS_OF = '2026-03-06T11:15:00Z'; // 05:15 at the lake
const HOUR = 3_600_000;
const LAST = Date.parse('2026-03-06T11:00:00Z');
const FROM: Provenance = {
  kind: 'observed',
  asOfMs: 0,
  freshness: 'fresh',
  source: { code: 'sunAndCalendar' },
};
type View = ReturnType<typeof recordView>;
/** A view with nothing but what is given. */
const only = (...observations: Observation[]): View => ({ ...recordView({ asOf: AS_OF }), observations });

describe('a figure', () => {
  it('is made of a number that is one, with the ends it has', () => {
    for (const none of [null, undefined, Number.NaN, Infinity, -Infinity])
      expect(figure(none, FROM)).toBeNull();
    expect(figure(0, FROM)).toEqual({ value: 0, ...FROM });
    expect(figure(1, FROM, 0)).toEqual({ value: 1, low: 0, ...FROM });
    expect(figure(1, FROM, undefined, 2)).toEqual({ value: 1, high: 2, ...FROM });
    const { signals, put } = signalsFrom(FROM);
    put('windMs', undefined);
    put('gustMs', 3, 1, 5);
    expect(signals).toEqual({ gustMs: { value: 3, low: 1, high: 5, ...FROM } });
  });
  it('may be a mean of some values, a sum of none, or a share of a way either up or down', () => {
    expect([mean([]), mean([2, 4, 9]), sum([]), sum([2, 4, 9])]).toEqual([null, 5, 0, 15]);
    fc.assert(
      fc.property(fc.double({ min: -50, max: 50, noNaN: true }), (value) => {
        const share = ramp(value, 10, 30);
        expect(share).toBeCloseTo(value <= 10 ? 0 : value >= 30 ? 1 : (value - 10) / 20, 12);
        expect(ramp(value, 30, 10)).toBeCloseTo(1 - share, 12);
      }),
    );
  });
});

describe('a source', () => {
  it('spoke last when it issued, else with its newest value, never after the morning itself', () => {
    const view = only(
      observation('level', LAST - 5 * HOUR, 1, { source: 'usgs' }),
      observation('level', LAST - 2 * HOUR, 1, { source: 'usgs', station: 'B' }),
      observation('air_temp', LAST + 9 * HOUR, 1, { source: 'nws', kind: 'forecast' }),
      observation('air_temp', LAST + 9 * HOUR, 1, {
        source: 'ea',
        kind: 'forecast',
        issuedMs: LAST - 7 * HOUR,
      }),
    );
    const credit = { name: 'N', attribution: 'A', url: 'U', licence: 'L' };
    expect(sourcesOf(view, { usgs: credit })).toEqual([
      { id: 'ea', lastMs: LAST - 7 * HOUR, name: 'ea', attribution: 'ea', url: '', licence: '' },
      { id: 'nws', lastMs: Date.parse(AS_OF), name: 'nws', attribution: 'nws', url: '', licence: '' },
      { id: 'usgs', lastMs: LAST - 2 * HOUR, ...credit },
    ]);
  });
});
