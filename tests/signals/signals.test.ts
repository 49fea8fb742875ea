import { describe, expect, it } from 'vitest';
import { readSignals } from '../../src/signals/index.ts';
import { gauge, observation, recordView, testLake } from '../helpers/weatherRecord.ts';

const AS_OF = '2026-03-06T11:15:00Z'; // 05:15 at the lake
const HOUR_MS = 3_600_000;
const value = (
  view: Parameters<typeof readSignals>[0],
  id: keyof ReturnType<typeof readSignals>['conditions']['signals'],
  lake = testLake,
) => readSignals(view, lake).conditions.signals[id];

describe('air', () => {
  it('finds the slope of a steady warming of 0.8 C a day over 3, 7 and 30 days', () => {
    const start = Date.parse('2026-01-01T06:00:00Z');
    const view = recordView({
      asOf: AS_OF,
      weather: (local) => ({ air: Math.floor((local.toMillis() - start) / 86_400_000) * 0.8 - 30 }),
    });
    for (const id of ['airTrend3dCPerDay', 'airTrend7dCPerDay', 'airTrend30dCPerDay'] as const) {
      expect(value(view, id)?.value).toBeCloseTo(0.8, 1);
    }
    expect(value(view, 'warmingDays')?.value).toBeGreaterThanOrEqual(10);
  });

  it('is not fooled by one wild day in a flat month', () => {
    const view = recordView({
      asOf: AS_OF,
      weather: (local) => ({ air: local.toISODate() === '2026-02-20' ? 25 : 6 }),
    });
    expect(value(view, 'airTrend30dCPerDay')?.value).toBeCloseTo(0, 5);
  });

  it('measures a front as the fall of the last 24 hours against the 24 before', () => {
    const edge = Date.parse(AS_OF) - 24 * HOUR_MS;
    const view = recordView({ asOf: AS_OF, weather: (local) => ({ air: local.toMillis() > edge ? 2 : 14 }) });
    expect(value(view, 'airDrop24hC')?.value).toBeCloseTo(12, 0);
  });

  it('says nothing of a three-day trend when a day is missing', () => {
    const view = recordView({ asOf: AS_OF });
    const holed = {
      ...view,
      observations: view.observations.filter(
        (row) =>
          !(
            row.variable === 'air_temp' &&
            row.atMs > Date.parse('2026-03-04T06:00Z') &&
            row.atMs < Date.parse('2026-03-05T00:00Z')
          ),
      ),
    };
    expect(value(holed, 'airTrend3dCPerDay')).toBeUndefined();
    expect(value(holed, 'airTrend30dCPerDay')).toBeDefined();
  });
});

describe('rain', () => {
  const rained = recordView({
    asOf: AS_OF,
    // 24 hours of 1.5 mm that end 20 hours ago
    weather: (local) => {
      const back = (Date.parse(AS_OF) - local.toMillis()) / HOUR_MS;
      return back >= 20 && back < 44 ? { rain: 1.5, air: 14, humidity: 95 } : { air: 9 };
    },
  });

  it('sums the hours of 24 and 72 h and counts from the end of the fall', () => {
    expect(value(rained, 'rain24Mm')?.value).toBeCloseTo(1.5 * 4, 0);
    expect(value(rained, 'rain72Mm')?.value).toBeCloseTo(36, 5);
    expect(value(rained, 'hoursSinceRain')?.value).toBeCloseTo(20, 0);
  });

  it('takes the temperature of the air while it fell, and the wet-bulb below it', () => {
    expect(value(rained, 'rainAirC')?.value).toBeCloseTo(14, 5);
    // Stull (2011) eq. 1 at 14 C and 95 %: 13.4 C
    expect(value(rained, 'rainWetBulbC')?.value).toBeCloseTo(13.4, 0);
  });

  it('never calls model rain observed, and prefers a gauge where there is one', () => {
    expect(value(rained, 'rain72Mm')?.kind).toBe('estimated');
    const asOfHour = Math.floor(Date.parse(AS_OF) / HOUR_MS) * HOUR_MS;
    const measured = Array.from({ length: 80 }, (_, back) =>
      observation('rain', asOfHour - back * HOUR_MS, 0.5, { periodS: 3600 }),
    );
    const both = { ...rained, observations: [...rained.observations, ...measured] };
    const rain = value(both, 'rain72Mm');
    expect(rain?.kind).toBe('observed');
    expect(rain?.value).toBeCloseTo(36, 5);
  });

  it('gives no sum when hours are missing: missing rain is not zero', () => {
    const holed = {
      ...rained,
      observations: rained.observations.filter(
        (row) => !(row.variable === 'rain' && row.atMs > Date.parse(AS_OF) - 30 * HOUR_MS),
      ),
    };
    expect(value(holed, 'rain72Mm')).toBeUndefined();
  });
});

describe('level', () => {
  const rising = gauge(
    'level',
    Date.parse('2026-03-06T11:00:00Z'),
    10,
    (back) => 100 + Math.max(0, 24 - back) * 0.02,
  );

  it('reads the change over 6, 24 and 72 hours from the gauge', () => {
    const view = recordView({ asOf: AS_OF, extra: rising });
    expect(value(view, 'level6hM')?.value).toBeCloseTo(0.12, 1);
    expect(value(view, 'level24hM')?.value).toBeCloseTo(0.48, 1);
    expect(value(view, 'level24hM')?.kind).toBe('observed');
  });

  it('uses the second gauge when the first is silent, and says so', () => {
    const silent = gauge('level', Date.parse('2026-03-02T11:00:00Z'), 5, () => 100);
    const second = rising.map((row) => ({ ...row, station: 'USGS-2' }));
    const view = recordView({ asOf: AS_OF, extra: [...silent, ...second] });
    expect(value(view, 'level24hM')?.source).toMatchObject({ code: 'gauge', fallback: true });
  });

  it('feeds no rule from a gauge that fell silent days ago, and names the gap with its last value', () => {
    const silent = gauge('level', Date.parse('2026-03-03T11:00:00Z'), 5, () => 100);
    const report = readSignals(recordView({ asOf: AS_OF, extra: silent }), testLake);
    expect(report.conditions.signals.level24hM).toBeUndefined();
    const gap = report.conditions.gaps.find((candidate) => candidate.id === 'level24hM');
    expect(gap?.fact).toEqual({ code: 'levelSilent', ageMs: 72.25 * HOUR_MS });
    // The last level is a level: shown as the change of a day it would be a flood of 100 m.
    expect(gap?.last).toBeUndefined();
    expect(report.conditions.gaps.find(({ id }) => id === 'levelM')?.last?.value).toBe(100);
  });
});

describe('local days', () => {
  it.each([
    ['the day the clocks go forward', '2026-03-08T10:15:00Z', '2026-03-08', 23],
    ['the day the clocks go back', '2026-11-01T11:15:00Z', '2026-11-01', 25],
  ])('has the right hours on %s', (_, asOf, date, hours) => {
    const report = readSignals(
      recordView({ asOf, weather: (local) => ({ rain: local.toISODate() === date ? 1 : 0 }) }),
      testLake,
    );
    expect(report.conditions.date).toBe(date);
    expect(report.hours).toHaveLength(hours);
    expect(report.days.find((day) => day.date === date)).toBeDefined();
    for (const day of report.days) expect(day.airMeanC).toBeDefined();
  });
});

describe('what is not known', () => {
  it('on stale weather no day ahead is shown', () => {
    const ahead = (weatherAgeH: number) => {
      const { days, conditions } = readSignals(recordView({ asOf: AS_OF, weatherAgeH }), testLake);
      return days.filter(({ date }) => date > conditions.date).length;
    };
    expect(ahead(2)).toBe(6);
    expect(ahead(80)).toBe(0);
  });

  it('a run-of-river pool without a discharge is named as judged like a lake', () => {
    const named = (
      waterBody: 'run-of-river' | 'highland-reservoir',
      extra = gauge('discharge', 0, 0, () => 0),
    ) => {
      const gauges = [
        { service: 'usgs', station: 'USGS-1', variable: 'discharge', where: 'below the dam' } as const,
      ];
      const { conditions } = readSignals(recordView({ asOf: AS_OF, extra }), {
        ...testLake,
        waterBody,
        gauges,
      });
      return conditions.gaps.some(({ fact }) => fact.code === 'noFlowThroughPool');
    };
    expect(named('run-of-river')).toBe(true);
    expect(named('highland-reservoir')).toBe(false);
    expect(
      named(
        'run-of-river',
        gauge('discharge', Date.parse(AS_OF), 20, () => 120),
      ),
    ).toBe(false);
  });

  it('with stale weather nothing that rests on it is a signal, and the gap is named', () => {
    const report = readSignals(recordView({ asOf: AS_OF, weatherAgeH: 60, aheadDays: 2 }), testLake);
    expect(report.conditions.signals.airMean24hC).toBeUndefined();
    expect(report.conditions.signals.waterC).toBeUndefined();
    expect(report.ahead).toEqual([]);
    expect(report.conditions.gaps.map((gap) => gap.id)).toContain('weather');
  });

  it('an empty record gives no signal but those of the calendar and the configuration', () => {
    const view = { ...recordView({ asOf: AS_OF }), observations: [] };
    const report = readSignals(view, testLake);
    expect(Object.keys(report.conditions.signals).sort()).toEqual([
      'bankDeg',
      'dayLengthChangeHPerWeek',
      'dayLengthH',
      'latitudeDeg',
    ]);
  });

  it('alerts that nobody asked for are named as not checked', () => {
    const gaps = readSignals(recordView({ asOf: AS_OF }), testLake).conditions.gaps;
    expect(gaps.find((gap) => gap.id === 'alerts')?.fact.code).toBe('alertsNotChecked');
  });
});

describe('the lake', () => {
  it('has an estimate with an interval that a fresh gauge thermometer narrows and moves', () => {
    const without = value(recordView({ asOf: AS_OF }), 'waterC');
    const water = gauge('water_temp', Date.parse('2026-03-06T11:00:00Z'), 30, () => 11);
    const withGauge = value(recordView({ asOf: AS_OF, extra: water }), 'waterC');
    expect(without?.kind).toBe('estimated');
    expect(withGauge?.value).toBeCloseTo(11, 0);
    const width = (figure: typeof without) => (figure?.high ?? NaN) - (figure?.low ?? NaN);
    expect(width(withGauge)).toBeLessThan(width(without));
  });

  it('is carried into the coming days for the tendency', () => {
    const report = readSignals(recordView({ asOf: AS_OF }), testLake);
    expect(report.ahead.length).toBeGreaterThanOrEqual(5);
    for (const day of report.ahead) expect(day.conditions.signals.waterC?.kind).toBe('forecast');
  });
});

it('is a pure function: the same record gives the same report', () => {
  const view = recordView({ asOf: AS_OF });
  expect(JSON.stringify(readSignals(view, testLake))).toBe(JSON.stringify(readSignals(view, testLake)));
});

it('a reading moves the estimate, and the report says from where to where', () => {
  const plain = recordView({ asOf: AS_OF });
  const reading = {
    id: 'r1',
    lake: testLake.id,
    atMs: Date.parse(AS_OF) - 3 * HOUR_MS,
    waterC: 11,
    depthM: 0.5,
    sdC: 0.5,
    where: 'ramp',
  };
  const before = readSignals(plain, testLake).conditions.signals.waterC?.value ?? NaN;
  const report = readSignals({ ...plain, readings: [reading] }, testLake);
  const after = report.conditions.signals.waterC?.value ?? NaN;
  expect(report.estimateBeforeReadingC).toBeCloseTo(before, 6);
  expect(Math.abs(after - 11)).toBeLessThan(Math.abs(before - 11));
});

describe('a reading is thanked for', () => {
  const taken = (daysAgo: number, more: { waterC?: number; depthM?: number } = {}) => ({
    id: `r${daysAgo}`,
    lake: testLake.id,
    atMs: Date.parse(AS_OF) - daysAgo * 24 * HOUR_MS,
    waterC: 8,
    depthM: 0.5,
    sdC: 0.5,
    where: 'ramp',
    ...more,
  });
  const read = (...readings: ReturnType<typeof taken>[]) =>
    readSignals({ ...recordView({ asOf: AS_OF }), readings }, testLake);

  it('for a week', () => {
    expect(read(taken(6)).estimateBeforeReadingC).not.toBeNull();
    for (const days of [8, 40, 36 * 365]) expect(read(taken(days)).estimateBeforeReadingC).toBeNull();
  });

  it('when it counts: a refused one is not among those used, and the one before it is thanked for', () => {
    const hot = taken(0.2, { waterC: 39 });
    const report = read(hot);
    expect(report.readingsUsed).toEqual([]);
    expect(report.estimateBeforeReadingC).toBeNull();
    expect(report.conditions.gaps.some(({ fact }) => fact.code === 'readingRefused')).toBe(true);
    expect(read(taken(3), hot).readingsUsed.map(({ waterC }) => waterC)).toEqual([8]);
    expect(read(taken(3), hot).estimateBeforeReadingC).not.toBeNull();
  });
});

describe('moving water', () => {
  const flow = gauge('discharge', Date.parse('2026-03-06T11:00:00Z'), 40, () => 120);
  const flowGauge = {
    service: 'usgs',
    station: 'USGS-1',
    variable: 'discharge',
    where: 'below the dam',
  } as const;
  const water = (
    waterBody: 'highland-reservoir' | 'run-of-river' | 'tailwater',
    riverKind?: 'lowland' | 'snow-fed',
  ) => {
    const lake = { ...testLake, waterBody, gauges: [flowGauge], ...(riverKind ? { riverKind } : {}) };
    const view = recordView({ asOf: AS_OF, extra: flow, weather: (local) => ({ air: 6 + 0.2 * local.day }) });
    return readSignals(view, lake).conditions.signals.waterC;
  };

  it('is judged by the river’s model in a tailwater and by both in a run-of-river pool', () => {
    const [lake, pool, tail] = [water('highland-reservoir'), water('run-of-river'), water('tailwater')];
    expect(tail?.value).not.toBeCloseTo(lake?.value ?? NaN, 2);
    expect(pool?.value).not.toBeCloseTo(lake?.value ?? NaN, 3);
  });

  it('takes the kind of river from the configuration', () => {
    const [lowland, melt] = [water('tailwater', 'lowland'), water('tailwater', 'snow-fed')];
    expect(lowland?.value).not.toBeCloseTo(melt?.value ?? NaN, 1);
    expect((melt?.high ?? NaN) - (melt?.low ?? NaN)).toBeLessThan(
      (water('tailwater')?.high ?? NaN) - (water('tailwater')?.low ?? NaN),
    );
  });

  it('without a reading a tailwater has the wider interval: a deep release follows its own water', () => {
    const width = (figure: ReturnType<typeof water>) => (figure?.high ?? NaN) - (figure?.low ?? NaN);
    expect(width(water('tailwater'))).toBeGreaterThan(width(water('highland-reservoir')));
  });
});
