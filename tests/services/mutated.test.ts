/**
 * Damaged replies: fields gone, nulls, text for numbers, wrong units, shuffled lists, cut and swollen bodies. A mapper
 * either maps soundly or refuses with an error of the family; no damage may add a value that was not there.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ThawlineError } from '../../src/units/index.ts';
import type { Observation } from '../../src/record/types.ts';
import { parseJson } from '../../src/services/parse.ts';
import { MAPPERS, unsound, type MapperName } from './mappers.ts';
import { hydrated, NOW_MS, recorded, recordedJson, weatherBody } from './support.ts';

const usgsContinuous = (recordedJson('usgs/waterdata_ogc_fixtures.json') as Record<string, unknown>)[
  'continuous'
];

/** A body for each mapper; large ones are cut to keep the runs short. */
const BODIES: Record<MapperName, unknown> = {
  'usgs rows': usgsContinuous,
  'usgs series': (recordedJson('usgs/waterdata_ogc_fixtures.json') as Record<string, unknown>)[
    'time-series-metadata'
  ],
  'open-meteo': shortened(
    weatherBody(new URLSearchParams('latitude=43.7&longitude=-79.4&past_days=1'), NOW_MS),
  ),
  'nws grid': shortened(recordedJson('nws/library/detailed_forecast.json')),
  'nws station': recordedJson('nws/relative-dates/e2e_stations_KLIT_observations__limit=1.json'),
  'nws alerts': recordedJson('nws/alerts/nws_alerts_with_test.json'),
  'nws point': recordedJson('nws/library/points.json'),
  'nws stations': shortened(recordedJson('nws/library/gridpoints_stations.json')),
  'nwps flood': recordedJson('nwps/gauge_ACRT2_trimmed.json'),
  'nwps stage': recordedJson('nwps/stageflow_ACRT2_trimmed.json'),
  'cwms page': hydrated(recordedJson('cwms/paging_num_ts_page1.json')),
  'ea station': recordedJson('ea/flood-monitoring_station_1491TH.json'),
  'ea readings': {
    items: [1, 2, 3].map((n) => ({ dateTime: `2026-03-06T0${n}:00:00Z`, measure: 'm', value: n / 10 })),
  },
  eccc: {
    features: [
      recordedJson('eccc/hydrometric-realtime_feature_TRIMMED.json'),
      {
        properties: {
          STATION_NUMBER: '05BB001',
          DATETIME: '2026-08-11T00:05:00Z',
          LEVEL: 2.4,
          DISCHARGE: null,
        },
      },
    ],
    numberMatched: 2,
  },
};

function shortened(body: unknown): unknown {
  if (Array.isArray(body)) return body.slice(0, 8).map(shortened);
  if (typeof body !== 'object' || body === null) return body;
  return Object.fromEntries(Object.entries(body).map(([key, value]) => [key, shortened(value)]));
}

type Mutation = 'drop' | 'null' | 'text' | 'junk' | 'reverse' | 'halve' | 'number' | 'negative';
const mutation = fc.record({
  at: fc.nat(100_000),
  how: fc.constantFrom<Mutation>('drop', 'null', 'text', 'junk', 'reverse', 'halve', 'number', 'negative'),
  junk: fc.anything({ maxDepth: 2, withNullPrototype: false }),
});

interface Slot {
  readonly holder: Record<string, unknown> | unknown[];
  readonly key: string;
}

function slots(value: unknown, found: Slot[] = []): Slot[] {
  if (typeof value !== 'object' || value === null) return found;
  for (const key of Object.keys(value)) {
    found.push({ holder: value as Record<string, unknown>, key });
    slots((value as Record<string, unknown>)[key], found);
  }
  return found;
}

function apply(body: unknown, { at, how, junk }: { at: number; how: Mutation; junk: unknown }): void {
  const all = slots(body);
  const slot = all[at % Math.max(1, all.length)];
  if (slot === undefined) return;
  const holder = slot.holder as Record<string, unknown>;
  const old = holder[slot.key];
  if (how === 'drop') Reflect.deleteProperty(holder, slot.key);
  else if (how === 'null') holder[slot.key] = null;
  else if (how === 'text') holder[slot.key] = typeof old === 'number' ? String(old) : 'furlong';
  else if (how === 'junk') holder[slot.key] = junk;
  else if (how === 'number') holder[slot.key] = 1e308;
  else if (how === 'negative') holder[slot.key] = -999_999;
  else if (Array.isArray(old))
    holder[slot.key] = how === 'reverse' ? [...old].reverse() : old.slice(0, Math.floor(old.length / 2));
}

function mapped(name: MapperName, body: unknown): Observation[] | null {
  try {
    return MAPPERS[name](body);
  } catch (error) {
    if (error instanceof ThawlineError && error.code === 'service') return null;
    throw error;
  }
}

describe.each(Object.keys(BODIES) as MapperName[])('a damaged reply to: %s', (name) => {
  it('maps when whole', () => {
    expect(mapped(name, structuredClone(BODIES[name]))).not.toBeNull();
  });

  it('is mapped soundly or refused', () => {
    fc.assert(
      fc.property(fc.array(mutation, { minLength: 1, maxLength: 4 }), (mutations) => {
        const body = structuredClone(BODIES[name]);
        for (const step of mutations) apply(body, step);
        expect(unsound(mapped(name, body) ?? [])).toEqual([]);
      }),
      { numRuns: 200 },
    );
  });

  it('gives no value for a number that is gone: never a silent zero', () => {
    const whole = mapped(name, structuredClone(BODIES[name])) ?? [];
    const zeros = (list: readonly Observation[]): number => list.filter((o) => o.value === 0).length;
    fc.assert(
      fc.property(fc.nat(100_000), fc.constantFrom<Mutation>('drop', 'null'), (at, how) => {
        const body = structuredClone(BODIES[name]);
        apply(body, { at, how, junk: null });
        const found = mapped(name, body) ?? [];
        expect(found.length).toBeLessThanOrEqual(whole.length);
        expect(zeros(found)).toBeLessThanOrEqual(zeros(whole));
      }),
      { numRuns: 150 },
    );
  });

  it('is refused when it is anything at all', () => {
    fc.assert(
      fc.property(fc.anything(), (body) => {
        expect(unsound(mapped(name, body) ?? [])).toEqual([]);
      }),
      { numRuns: 100 },
    );
  });
});

describe('text that is no data', () => {
  const whole = recorded('usgs/v1_daily_duplicate_series_USGS-02196000_2026-09-22.json');

  it('is refused wherever it is cut', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: whole.trimEnd().length - 1 }), (length) => {
        expect(() => parseJson(whole.slice(0, length), 'The service')).toThrow(ThawlineError);
      }),
      { numRuns: 100 },
    );
  });

  it('is refused when it is ten megabytes of junk, in one sentence that does not repeat it', () => {
    const junk = '{"'.repeat(5_000_000);
    expect(() => parseJson(junk, 'The service')).toThrow(
      'The service answered with data that is cut short or damaged; it will be asked again later.',
    );
  });

  it('is told from a web page', () => {
    expect(() => parseJson('<!doctype html>', 'The service')).toThrow('a web page instead of data');
  });
});
