// The parts of the signals, each at its own bounds: what counts as known, enough, in a row, near and open.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { LakeConfig } from '../../src/config/types.ts';
import type { Observation } from '../../src/record/types.ts';
import { dewPointC, thermoclineM } from '../../src/science/index.ts';
import { figure, mean, ramp, signalsFrom, sum, type Provenance } from '../../src/signals/figure.ts';
import { readSignals } from '../../src/signals/index.ts';
import { lakeReport, windOnFaces } from '../../src/signals/place/index.ts';
import { horizonOf } from '../../src/signals/place/surroundings.ts';
import { sourcesOf } from '../../src/signals/sources.ts';
import { uncheckedGaps } from '../../src/signals/unchecked.ts';
import { layerEstimate } from '../../src/signals/water/layer.ts';
import { warmingDays } from '../../src/signals/weather/air.ts';
import { hourly } from '../../src/signals/weather/hourly.ts';
import { stormSign, weatherOf, weatherPart } from '../../src/signals/weather/index.ts';
import { observation, recordView, testLake } from '../helpers/weatherRecord.ts';

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
const rowsAt = (
  variable: Observation['variable'],
  values: readonly number[],
  more: Partial<Observation> = {},
) =>
  values.map((value, i) =>
    observation(variable, LAST - (values.length - 1 - i) * HOUR, value, {
      source: 'open-meteo',
      station: '',
      ...more,
    }),
  );
/** Air and rain over water of 8 degC. */
const signalsOf = (view: View) =>
  weatherPart(view, testLake, weatherOf(view, testLake), () => 8).signals(view.asOfMs);
const gapsOf = (view: View, lake: LakeConfig = testLake) =>
  readSignals(view, lake).conditions.gaps.map(({ id, fact }) => ({ id, ...fact }));

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

describe('days that warm in a row', () => {
  it('are counted back from the last, over pauses of 0.2 K, until one cools', () => {
    expect(warmingDays([5, 6, 7, 8])).toBe(3);
    expect(warmingDays([8, 7, 6])).toBe(-2);
    expect(warmingDays([9, -1, 0, 0.2, 1])).toBe(2);
    expect(warmingDays([9, -1, 0, 0.21, 1])).toBe(3);
    expect(warmingDays([1, 2, 3, 2, 3])).toBe(1);
    expect(warmingDays([5, 6, 5])).toBe(-1);
    expect([warmingDays([]), warmingDays([5]), warmingDays([5, 5.1, 5])]).toEqual([0, 0, 0]);
  });
  it('and turn their sign with the series', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: -20, max: 30 }), { maxLength: 14 }), (days) => {
        expect(warmingDays(days.map((one) => -one))).toBe(0 - warmingDays(days));
        expect(Math.abs(warmingDays(days))).toBeLessThan(Math.max(1, days.length));
      }),
    );
  });
});

describe('the value of an hour', () => {
  const of = (variable: Observation['variable'], ...observations: Observation[]) =>
    hourly(only(...observations), variable, ['open-meteo', 'nws']);
  const at = (
    variable: Observation['variable'],
    minutes: number,
    value: number,
    more: Partial<Observation> = {},
  ) => observation(variable, LAST + minutes * 60_000, value, more);

  it('is the mean of what lies nearest to it, for instants', () => {
    const air = of(
      'air_temp',
      at('air_temp', -31, 1),
      at('air_temp', -30, 4),
      at('air_temp', 0, 6),
      at('air_temp', 29, 8),
    );
    expect(air.at(LAST)).toBe(6);
    expect(air.at(LAST - HOUR)).toBe(1);
    expect(air.at(LAST + HOUR)).toBeUndefined();
  });
  it('is the sum of the periods that end in it, for rain, and a share of a longer one', () => {
    const period = { periodS: 900 };
    const rain = of('rain', at('rain', -45, 1, period), at('rain', -30, 2, period), at('rain', 0, 4, period));
    expect(rain.at(LAST)).toBe(7);
    const six = of('rain', at('rain', 0, 12, { periodS: 6 * 3600 }));
    expect(six.within(LAST - 6 * HOUR, LAST)).toEqual([2, 2, 2, 2, 2, 2]);
    expect(six.at(LAST - 6 * HOUR)).toBeUndefined();
  });
  it('is a mean of a longer period as it stands, for sunshine', () => {
    const sun = of('shortwave', at('shortwave', 0, 300, { periodS: 3 * 3600 }));
    expect(sun.within(LAST - 3 * HOUR, LAST)).toEqual([300, 300, 300]);
  });
  it('comes from an instrument before an analysis before a model before a forecast, and then from the preferred service', () => {
    const kinds = ['observed', 'analysis', 'model', 'forecast'] as const;
    kinds.forEach((kind, i) => {
      const rows = kinds.slice(i).map((one, k) => at('air_temp', 0, 10 * k, { kind: one, station: one }));
      const series = of('air_temp', ...rows.reverse());
      expect([series.at(LAST), series.originAt(LAST)?.kind]).toEqual([0, kind]);
    });
    const from = (source: string, value: number) =>
      at('air_temp', 0, value, { kind: 'model', source, station: source });
    expect(of('air_temp', from('other', 3), from('nws', 2), from('open-meteo', 1)).at(LAST)).toBe(1);
    expect(of('air_temp', from('other', 3), from('nws', 2)).at(LAST)).toBe(2);
    // One station is never mixed with another of the same rank.
    expect(
      of('air_temp', at('air_temp', 0, 4, { station: 'A' }), at('air_temp', 0, 8, { station: 'B' })).at(LAST),
    ).toBe(4);
  });
  it('is known of whole stretches by their ends: the first is outside, the last within', () => {
    const series = of('air_temp', ...[0, 1, 2, 3].map((h) => at('air_temp', -60 * h, h)));
    expect(series.within(LAST - 2 * HOUR, LAST)).toEqual([1, 0]);
    expect(series.endsWithin(LAST - 2 * HOUR, LAST)).toEqual([LAST - HOUR, LAST]);
    expect(series.sumWithin(LAST - 2 * HOUR, LAST)).toEqual({ count: 2, sum: 1, least: 0, most: 1 });
    expect(series.sumWithin(LAST, LAST + 9 * HOUR)).toEqual({
      count: 0,
      sum: 0,
      least: Infinity,
      most: -Infinity,
    });
    expect(series.within(LAST - 99 * HOUR, LAST + 99 * HOUR)).toEqual([3, 2, 1, 0]);
    expect([series.firstMs, series.lastMs, series.isEmpty]).toEqual([LAST - 3 * HOUR, LAST, false]);
    expect(of('rain').isEmpty).toBe(true);
    expect(series.stampAt(LAST)).toBe(LAST);
    expect(series.stampAt(LAST + HOUR)).toBeUndefined();
  });
});

describe('a local day', () => {
  const dayOf = (hours: number, of: (i: number) => number = (i) => i) => {
    const midnight = Date.parse('2026-03-05T06:00:00Z');
    const rows = Array.from({ length: hours }, (_, i) =>
      observation('air_temp', midnight + (i + 1) * HOUR, of(i), { kind: 'model' }),
    );
    return weatherOf(only(...rows), testLake).days.between('2026-03-05', '2026-03-05')[0]!;
  };
  it('is known from twenty of its hours on', () => {
    expect(dayOf(20)).toMatchObject({ airC: 9.5, airMinC: 0, airMaxC: 19 });
    expect(dayOf(19)).toMatchObject({ airC: null, airMinC: null, airMaxC: null, rainMm: null });
  });
  it('has its dew point from air and humidity, held between 1 and 100 %', () => {
    const dewOf = (humidity: number) =>
      weatherOf(recordView({ asOf: AS_OF, weather: () => ({ air: 10, humidity }) }), testLake).days.between(
        '2026-03-05',
        '2026-03-05',
      )[0]?.dewPointC;
    expect(dewOf(60)).toBeCloseTo(dewPointC(10, 60), 9);
    expect(dewOf(104)).toBeCloseTo(10, 9);
    expect(dewOf(0)).toBeCloseTo(dewPointC(10, 1), 9);
  });
  it('sums its rain and means its sun, wind and cloud', () => {
    const view = recordView({
      asOf: AS_OF,
      weather: (local) => ({ rain: 0.5, sun: local.hour === 12 ? 240 : 0, wind: 4, cloud: 30 }),
    });
    expect(weatherOf(view, testLake).days.between('2026-03-05', '2026-03-05')[0]).toMatchObject({
      rainMm: 12,
      solarWm2: 10,
      windMs: 4,
      cloudPct: 30,
      forecastHours: 0,
    });
    expect(weatherOf(view, testLake).days.between('2026-03-07', '2026-03-07')[0]?.forecastHours).toBe(24);
  });
});

describe('weather that gets old', () => {
  it('is fresh, then named with its age, then not counted on', () => {
    const named = (ageH: number) =>
      gapsOf(recordView({ asOf: AS_OF, weatherAgeH: ageH })).find(({ id }) => id === 'weather');
    expect(named(1)).toBeUndefined();
    const [ageing, old] = [named(14), named(60)];
    for (const [gap, ageH] of [
      [ageing, 14],
      [old, 60],
    ] as const) {
      expect(gap).toBeDefined();
      // The issue is of the whole hour before.
      expect('ageMs' in gap! ? gap.ageMs / HOUR : NaN).toBeCloseTo(ageH + 0.25, 9);
    }
    expect([ageing?.code, old?.code]).toEqual(['weatherAgeing', 'weatherTooOld']);
    expect(gapsOf(only()).find(({ id }) => id === 'weather')?.code).toBe('noWeather');
  });
});

describe('rain', () => {
  const rained = (
    hour: (back: number) => number,
    more: (back: number) => { air?: number; humidity?: number; cloud?: number } = () => ({}),
  ) =>
    signalsOf(
      recordView({
        asOf: AS_OF,
        pastDays: 20,
        weather: (local) => {
          const back = Math.round((LAST - local.toMillis()) / HOUR);
          return { rain: hour(back), ...more(back) };
        },
      }),
    );
  it('of a day, three and seven counts the hours that ended within them', () => {
    const one = (at: number) => {
      const { rain24Mm, rain72Mm, rain7dMm } = rained((back) => (back === at ? 5 : 0));
      return [rain24Mm, rain72Mm, rain7dMm].map((found) => found?.value);
    };
    // 05:15: the hour that ended at 05:00 yesterday is 24 h and a quarter ago.
    expect(one(0)).toEqual([5, 5, 5]);
    expect(one(23)).toEqual([5, 5, 5]);
    expect(one(24)).toEqual([0, 5, 5]);
    expect(one(71)).toEqual([0, 5, 5]);
    expect(one(72)).toEqual([0, 0, 5]);
    expect(one(167)).toEqual([0, 0, 5]);
    expect(one(168)).toEqual([0, 0, 0]);
  });
  it('to come counts from now on, a day and three', () => {
    const one = (at: number) => {
      const { rainNext24Mm, rainNext72Mm } = rained((back) => (back === -at ? 5 : 0));
      return [rainNext24Mm?.value, rainNext72Mm?.value];
    };
    expect([one(0), one(1), one(24), one(25), one(72), one(73)]).toEqual([
      [0, 0],
      [5, 5],
      [5, 5],
      [0, 5],
      [0, 5],
      [0, 0],
    ]);
  });
  it('is as warm as the air it fell through, weighed by how much fell, from a millimetre on', () => {
    const two = (first: number, second: number) =>
      rained(
        (back) => (back === 5 ? first : back === 9 ? second : 0),
        (back) => ({ air: back <= 6 ? 12 : 4, humidity: 80 }),
      );
    expect(two(3, 1).rainAirC?.value).toBeCloseTo(10, 9);
    expect(two(1, 3).rainAirC?.value).toBeCloseTo(6, 9);
    expect(two(0.4, 0.4).rainAirC).toBeUndefined();
    const { rainWetBulbC, rainAirC } = two(3, 1);
    expect(rainWetBulbC!.value).toBeLessThan(rainAirC!.value);
    expect(rainWetBulbC!.value).toBeGreaterThan(rainAirC!.value - 4);
  });
  it('is as warm as the air of the hours of which that is known', () => {
    const view = recordView({
      asOf: AS_OF,
      pastDays: 5,
      weather: (local) => ({ rain: Math.round((LAST - local.toMillis()) / HOUR) < 4 ? 2 : 0, air: 11 }),
    });
    const holed = view.observations.filter(
      ({ variable, atMs }) => variable !== 'air_temp' || atMs !== LAST - 2 * HOUR,
    );
    expect(signalsOf({ ...view, observations: holed }).rainAirC?.value).toBeCloseTo(11, 9);
  });
  it('is a fall from 2 mm on, and forgotten after ten days', () => {
    const since = (mm: number, at: number) => rained((back) => (back === at ? mm : 0)).hoursSinceRain?.value;
    expect(since(2, 20)).toBeCloseTo(20.25, 9);
    expect(since(1.9, 20)).toBeUndefined();
    expect(since(5, 239)).toBeCloseTo(239.25, 9);
    expect(since(5, 240)).toBeUndefined();
  });
  it('is followed by a clear cold night where one was clear and colder than the water by some kelvins', () => {
    // Rain ended 40 h ago, in the evening of the 4th; the nights of the 5th and 6th are as told.
    const nights = (cloud: readonly [number, number], air: readonly [number, number]) =>
      rained(
        (back) => (back === 40 ? 6 : 0),
        (back) => ({ cloud: cloud[back > 20 ? 0 : 1], air: air[back > 20 ? 0 : 1], humidity: 70 }),
      ).clearColdNightSinceRain?.value;
    expect(nights([100, 100], [-5, -5])).toBe(0);
    expect(nights([10, 10], [20, 20])).toBe(0);
    expect(nights([10, 10], [-12, -12])).toBe(1);
    // The strongest of the nights counts, whichever it was.
    expect(nights([10, 100], [-12, 8])).toBe(1);
    expect(nights([100, 10], [8, -12])).toBe(1);
    expect(nights([50, 50], [-12, -12])).toBeCloseTo(0.5, 9);
  });
});

describe('signs of thunder', () => {
  const sign = (code: Record<number, number>, cape: number | null, rainMm = 0) => {
    const start = LAST;
    const rows = [
      ...[-4, -3, -2, -1, 0, 1, 2, 3, 4].map((h) =>
        observation('weather_code', start + h * HOUR, code[h] ?? 3, { kind: 'forecast' }),
      ),
      ...(cape === null ? [] : [observation('cape', start, cape, { kind: 'forecast' })]),
      observation('rain', start + HOUR, rainMm, { kind: 'forecast', periodS: 3600 }),
    ];
    return stormSign(weatherOf(only(...rows), testLake).table, start);
  };
  it('are the model’s own storm at either end of the hour, or one within two hours of it', () => {
    expect([sign({ 0: 95 }, null), sign({ 1: 17 }, null)]).toEqual([1, 1]);
    expect([
      sign({ [-1]: 95 }, null),
      sign({ [-2]: 96 }, null),
      sign({ 2: 95 }, null),
      sign({ 3: 95 }, null),
    ]).toEqual([0.5, 0.5, 0.5, 0.5]);
    expect([sign({ [-3]: 95 }, null), sign({ 4: 95 }, null)]).toEqual([0, 0]);
  });
  // Classes of the United States National Weather Service: strong from 1000 J/kg, extreme from 2500 (from memory).
  it('or air of much energy, of less where a shower sets it free', () => {
    expect([
      sign({}, 2499),
      sign({}, 2500),
      sign({}, 999, 1),
      sign({}, 1000, 0.2),
      sign({}, 1000, 0.1),
    ]).toEqual([0, 0.25, 0, 0.25, 0]);
  });
  it('and none are known where neither is', () => {
    expect(stormSign(weatherOf(only(), testLake).table, LAST)).toBeUndefined();
  });
});

describe('what was not checked', () => {
  const checked = { ...recordView({ asOf: AS_OF }), alertsCheckedMs: LAST };
  const codes = (view: View, lake: LakeConfig, flow: number | null = 5) =>
    uncheckedGaps(view, lake, flow, []).map(({ id, fact }) => [id, fact.code]);
  const full: LakeConfig = { ...testLake, alerts: 'nws', floodGauge: 'X' };
  it('is named by what it would have told', () => {
    expect(codes(checked, full)).toEqual([]);
    expect(codes({ ...checked, alertsCheckedMs: null }, full)).toEqual([['alerts', 'alertsNotChecked']]);
    expect(codes(checked, { ...full, alerts: 'none' })).toEqual([['alerts', 'alertsNotChecked']]);
    const { floodGauge: _, ...noFlood } = full;
    expect(codes(checked, noFlood)).toEqual([['flood', 'floodNotChecked']]);
    expect(codes(checked, { ...full, waterBody: 'run-of-river' }, null)).toEqual([
      ['dischargeM3s', 'noFlowThroughPool'],
    ]);
    expect(codes(checked, { ...full, waterBody: 'run-of-river' })).toEqual([]);
    expect(codes(checked, full, null)).toEqual([]);
  });
  it('are values of the last three days that were not believed, counted, but for a level that waits for its next', () => {
    const doubt = (
      backH: number,
      variable: Observation['variable'],
      code: 'doubt.spike' | 'doubt.unconfirmed',
    ) => observation(variable, LAST - backH * HOUR, 9, { doubt: { code } });
    const gap = (...rows: Observation[]) =>
      uncheckedGaps({ ...only(...rows), alertsCheckedMs: LAST }, full, 5, []).map(({ id, fact }) => ({
        id,
        ...fact,
      }));
    expect(gap(doubt(71, 'water_temp', 'doubt.spike'), doubt(2, 'water_temp', 'doubt.spike'))).toEqual([
      {
        id: 'gauge',
        code: 'valuesDoubted',
        count: 2,
        variable: 'water_temp',
        doubt: { code: 'doubt.spike' },
      },
    ]);
    expect(gap(doubt(72, 'water_temp', 'doubt.spike'))).toEqual([]);
    expect(gap(doubt(1, 'level', 'doubt.unconfirmed'))).toEqual([]);
    expect(gap(doubt(1, 'level', 'doubt.spike'))).toHaveLength(1);
    expect(gap(doubt(1, 'water_temp', 'doubt.unconfirmed'))).toHaveLength(1);
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

describe('the layer of a lake', () => {
  const lake = (more: Partial<LakeConfig>): LakeConfig => ({
    ...testLake,
    meanDepthM: 12,
    fetchM: 3000,
    ...more,
  });
  it('is guessed of warm, deep, standing water whose configuration does not name it', () => {
    expect(layerEstimate(lake({}), 26)).toEqual(thermoclineM(3000, 26));
    expect(layerEstimate(lake({}), 24)).not.toBeNull();
    expect(layerEstimate(lake({}), 40)).not.toBeNull();
    for (const waterC of [23.9, 40.1, undefined]) expect(layerEstimate(lake({}), waterC)).toBeNull();
    expect(layerEstimate(lake({ oxygenDepthM: 6 }), 26)).toBeNull();
    for (const waterBody of ['tailwater', 'run-of-river'] as const)
      expect(layerEstimate(lake({ waterBody }), 26)).toBeNull();
  });
  it('lies in lakes of 5 m and ponds of 2 m mean depth, above the bottom at twice it', () => {
    expect(layerEstimate(lake({ meanDepthM: 5 }), 26)).not.toBeNull();
    expect(layerEstimate(lake({ meanDepthM: 4.9 }), 26)).toBeNull();
    const pond = { waterBody: 'pond', fetchM: 60 } as const;
    expect(layerEstimate(lake({ ...pond, meanDepthM: 2 }), 26)).not.toBeNull();
    expect(layerEstimate(lake({ ...pond, meanDepthM: 1.9 }), 26)).toBeNull();
    // 20 km of open water: 15.9 m, deeper than a lake of 7 m in the mean is anywhere.
    expect(thermoclineM(20_000, 26).depthM).toBeGreaterThan(14);
    expect(layerEstimate(lake({ fetchM: 20_000, meanDepthM: 7 }), 26)).toBeNull();
    expect(layerEstimate(lake({ fetchM: 20_000, meanDepthM: 8.5 }), 26)).not.toBeNull();
  });
  it('goes by the area where no fetch is known, with a wider interval', () => {
    const { fetchM: _, ...noFetch } = lake({ areaKm2: 4 });
    const found = layerEstimate(noFetch, 26)!;
    expect(found.depthM).toBeCloseTo(thermoclineM(3000, 26).depthM, 9);
    expect(found.lowM).toBeCloseTo(thermoclineM(3000 / 1.35, 26).lowM, 9);
    expect(found.highM).toBeCloseTo(thermoclineM(3000 * 1.35, 26).highM, 9);
  });
});

describe('what stands around a pocket', () => {
  const [draw] = testLake.pockets;
  it('is open within 60 degrees of the side it faces, and as high as its cover elsewhere', () => {
    const { horizonDeg, guessed } = horizonOf(
      { ...draw!, facesDeg: 180, landCover: 'wooded', areaM2: 6400 },
      testLake,
    )!;
    const height = (Math.atan(15 / 40) * 180) / Math.PI;
    expect(guessed).toBe(true);
    expect(horizonDeg.map((deg) => Math.round(deg * 1000) / 1000)).toEqual(
      [height, height, height, 0, 0, 0, height, height].map((deg) => Math.round(deg * 1000) / 1000),
    );
    const north = horizonOf({ ...draw!, facesDeg: 350, landCover: 'pasture' }, testLake)!.horizonDeg;
    expect(north.map((deg) => deg === 0)).toEqual([true, true, false, false, false, false, false, true]);
  });
  it('is what the configuration says, of the pocket before the lake, and unknown where nothing does', () => {
    const lake = { ...testLake, horizonDeg: [5] };
    expect(horizonOf({ ...draw!, horizonDeg: [9] }, lake)).toEqual({ horizonDeg: [9], guessed: false });
    expect(horizonOf(draw!, lake)).toEqual({ horizonDeg: [5], guessed: false });
    expect(horizonOf(draw!, testLake)).toBeNull();
  });
});

describe('wind on places that say which way they face', () => {
  const MORNING = Date.parse('2026-03-06T12:00:00Z'); // 06:00
  const faces = [
    { name: 'North', facesDeg: 0 },
    { name: 'South', facesDeg: 180 },
  ];
  const hours = (...winds: readonly (readonly [deg: number, ms: number])[]) =>
    winds.map(([windDirDeg, windMs], i) => ({ atMs: MORNING + i * HOUR, windMs, windDirDeg }));
  const told = (...winds: readonly (readonly [deg: number, ms: number])[]) =>
    windOnFaces(faces, hours(...winds), testLake.zone);
  it('is told of the longest stretch it blows onto one, with the side in the middle of it', () => {
    expect(told([0, 5], [0, 5], [0, 5])).toEqual({
      code: 'windOn',
      on: ['North'],
      fromHour: 6,
      toHour: 9,
      side: 0,
      out: [{ name: 'South', faces: 4 }],
    });
    expect(told([315, 5], [0, 5], [45, 5])).toMatchObject({ side: 0, fromHour: 6, toHour: 9 });
    expect(told([0, 5], [0, 5], [90, 5], [0, 5], [0, 5], [0, 5])).toMatchObject({
      fromHour: 9,
      toHour: 12,
      out: [],
    });
  });
  it('is told of the longest stretch in a row, not of the place that has most hours in all', () => {
    expect(told([0, 5], [90, 5], [0, 5], [90, 5], [0, 5], [90, 5], [180, 5], [180, 5])).toMatchObject({
      on: ['South'],
      fromHour: 12,
      toHour: 14,
    });
  });
  it('names with it only those places that the whole stretch blows onto', () => {
    const near = [...faces, { name: 'Northeast', facesDeg: 60 }];
    const of = (...winds: readonly (readonly [deg: number, ms: number])[]) =>
      windOnFaces(near, hours(...winds), testLake.zone);
    expect(of([0, 5], [0, 5], [0, 5])).toMatchObject({ on: ['North', 'Northeast'] });
    expect(of([340, 5], [0, 5], [0, 5])).toMatchObject({ on: ['North'], fromHour: 6, toHour: 9 });
  });
  it('needs two hours, and wind of 2.7 m/s', () => {
    expect(told([0, 5])).toBeNull();
    expect(told([0, 2.7], [0, 2.7])).not.toBeNull();
    expect(told([0, 2.6], [0, 2.6], [0, 2.6])).toBeNull();
    expect(told([0, 5], [90, 5], [0, 5])).toBeNull();
  });
  it('blows onto what lies within 67.5 degrees of it, and from the back of what lies 112.5 away', () => {
    expect(told([67.5, 5], [67.5, 5])).toMatchObject({ on: ['North'], out: [{ name: 'South', faces: 4 }] });
    expect(told([68, 5], [68, 5])).toBeNull();
    expect(told([292.5, 5], [292.5, 5])).toMatchObject({ on: ['North'] });
    expect(told([67, 5], [68, 5], [67, 5], [67, 5])).toMatchObject({ fromHour: 8, toHour: 10, out: [] });
  });
  it('is nothing to a lake without places', () => {
    expect(lakeReport(testLake, [], { dawnMs: null, riseMs: null, setMs: null, duskMs: null })).toBeNull();
    expect(windOnFaces([], hours([0, 5], [0, 5]), testLake.zone)).toBeNull();
  });
});

it('a mean of the last day needs five sixths of its hours', () => {
  const meanOf = (hours: number) =>
    signalsOf(only(...rowsAt('air_temp', new Array<number>(hours).fill(7), { kind: 'model' }))).airMean24hC
      ?.value;
  expect([meanOf(20), meanOf(19)]).toEqual([7, undefined]);
});
