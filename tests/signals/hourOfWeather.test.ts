/** The value of an hour and of a local day, from the best that is known of them. */
import { describe, expect, it } from 'vitest';
import type { Observation } from '../../src/record/types.ts';
import { dewPointC } from '../../src/science/index.ts';
import { hourly } from '../../src/signals/weather/hourly.ts';
import { weatherOf } from '../../src/signals/weather/index.ts';
import { observation, recordView, testLake } from '../helpers/weatherRecord.ts';

const AS_OF = '2026-03-06T11:15:00Z'; // 05:15 at the lake
const HOUR = 3_600_000;
const LAST = Date.parse('2026-03-06T11:00:00Z');
type View = ReturnType<typeof recordView>;
/** A view with nothing but what is given. */
const only = (...observations: Observation[]): View => ({ ...recordView({ asOf: AS_OF }), observations });

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
