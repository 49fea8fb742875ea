/** Each field of the form is the number it says, in SI; each word stands for its range; what follows from others follows. */
import { describe, expect, it } from 'vitest';
import { faultOf, understand, varied, whatIfSchema, whatIfTemplate } from '../../src/advice/whatIf/index.ts';
import { parseYaml } from '../../src/config/index.ts';
import { dayLengthH } from '../../src/science/index.ts';
import type { SignalId } from '../../src/signals/types.ts';

const read = (text: string) => parseYaml(text, 'day.yaml', whatIfSchema);
const understood = (text: string) => understand(read(text));
const signals = (text: string) => understood(text).conditions.signals;
const faults = (form: unknown) =>
  (whatIfSchema.safeParse(form).error?.issues ?? []).map((issue) => ({
    path: issue.path,
    ...faultOf(issue),
  }));

describe('a field of the form', () => {
  // Factors of NIST Special Publication 811 (2008), appendix B: inch 25.4 mm, mile an hour 0.44704 m/s, knot 0.514444.
  it.each<readonly [string, SignalId, number]>([
    ['thunder: 30 %', 'thunderPct', 30],
    ['bank: 30 deg', 'bankDeg', 30],
    ['sky: 60 %', 'cloudPct', 60],
    ['latitude: 35.5', 'latitudeDeg', 35.5],
    ['air: { mean24h: 50 F }', 'airMean24hC', 10],
    ['air: { mean3d: 10 C }', 'airMean3dC', 10],
    ['air: { mean7d: 59 degF }', 'airMean7dC', 15],
    ['air: { trend3d: 1.8 F/day }', 'airTrend3dCPerDay', 1],
    ['air: { trend7d: -2 C/day }', 'airTrend7dCPerDay', -2],
    ['air: { warmingDays: -3 }', 'warmingDays', -3],
    ['air: { drop24h: 18 F }', 'airDrop24hC', 10],
    ['air: { overnightLow: 32 F }', 'airMinLastNightC', 0],
    ['air: { now: -4 °C }', 'airNowC', -4],
    ['air: { highToday: 86 F }', 'airMaxTodayC', 30],
    ['rain: { last24h: 2 in }', 'rain24Mm', 50.8],
    ['rain: { last72h: 3 cm }', 'rain72Mm', 30],
    ['rain: { last7d: 80 mm }', 'rain7dMm', 80],
    ['rain: { temperature: 59 F }', 'rainAirC', 15],
    ['rain: { hoursSince: 14 h }', 'hoursSinceRain', 14],
    ['rain: { next24h: 1 in }', 'rainNext24Mm', 25.4],
    ['rain: { clearColdNightSince: true }', 'clearColdNightSinceRain', 1],
    ['rain: { clearColdNightSince: false }', 'clearColdNightSinceRain', 0],
    ['level: { change6h: -1 ft }', 'level6hM', -0.3048],
    ['level: { change24h: 10 cm }', 'level24hM', 0.1],
    ['level: { change72h: 10 in }', 'level72hM', 0.254],
    ['level: { aboveNormal: -2 m }', 'levelVsNormalM', -2],
    ['wind: { speed: 36 km/h }', 'windMs', 10],
    ['wind: { gust: 10 kt }', 'gustMs', 5.14444],
    ['wind: { fetch: 1 mi }', 'fetchM', 1609.344],
    ['water: { main: 50 F }', 'waterC', 10],
    ['water: { change3d: -1.8 F }', 'waterChange3dC', -1],
    ['water: { change7d: 2 K }', 'waterChange7dC', 2],
    ['water: { pocket: 12 C }', 'pocketC', 12],
    ['water: { clarity: 4 ft }', 'clarityM', 1.2192],
    ['water: { bottomOxygen: 2 mg/L }', 'bottomOxygenMgL', 2],
    ['flow: { current: 1 mph }', 'currentMs', 0.44704],
    ['flow: { dischargeRatio: 2.5 x }', 'dischargeRatio', 2.5],
    ['flow: { generation: on }', 'generationOn', 1],
    ['flow: { generation: true }', 'generationOn', 1],
    ['flow: { generation: off }', 'generationOn', 0],
    ['flow: { generation: false }', 'generationOn', 0],
  ])('%s is %s, observed, of the reader', (text, id, value) => {
    const figure = signals(text)[id];
    expect(figure?.value).toBeCloseTo(value, 9);
    expect(figure).toMatchObject({ kind: 'observed', freshness: 'fresh', source: { code: 'given' } });
  });

  it.each<readonly [string, SignalId, string, readonly [number, number]]>([
    ['bank: gentle', 'bankDeg', 'gentle', [4, 14]],
    ['bank: medium', 'bankDeg', 'medium', [12, 28]],
    ['bank: steep', 'bankDeg', 'steep', [27, 50]],
    ['sky: clear', 'cloudPct', 'clear', [0, 20]],
    ['sky: partly', 'cloudPct', 'partly', [30, 65]],
    ['sky: overcast', 'cloudPct', 'overcast', [85, 100]],
    ['water: { clarity: clear }', 'clarityM', 'clear', [1.8, 4]],
    ['water: { clarity: stained }', 'clarityM', 'stained', [0.45, 1.1]],
    ['water: { clarity: muddy }', 'clarityM', 'muddy', [0.08, 0.35]],
  ])('%s is an estimate between the bounds of the word', (text, id, word, [low, high]) => {
    const figure = signals(text)[id];
    expect(figure).toMatchObject({ kind: 'estimated', low, high, source: { code: 'given', as: word } });
    expect(figure?.value).toBeGreaterThan(low);
    expect(figure?.value).toBeLessThan(high);
  });

  it('says the light of a time of day: all of it low at dawn and dusk, none at midday', () => {
    const light = (time: string) => signals(`time: ${time}`).lowLightShare?.value;
    expect(['dawn', 'dusk', 'midday'].map(light)).toEqual([1, 1, 0]);
    for (const time of ['morning', 'afternoon', 'night']) {
      expect(light(time)).toBeGreaterThan(0);
      expect(light(time)).toBeLessThan(1);
    }
  });

  it('that is missing is a gap named by its field, and one that follows from others is none', () => {
    const fieldsMissing = (text: string) =>
      understood(text).conditions.gaps.map(({ fact }) => (fact.code === 'notGiven' ? fact.field : ''));
    expect(fieldsMissing('schema: thawline-conditions/1')).toEqual([
      ...[
        'date',
        'water.main',
        'water.change7d',
        'air.mean24h',
        'air.mean3d',
        'air.warmingDays',
        'air.drop24h',
      ],
      ...[
        'air.overnightLow',
        'rain.last72h',
        'water.pocket',
        'level.change24h',
        'water.clarity',
        'wind.speed',
      ],
      ...['sky', 'time', 'bank', 'flow.current'],
    ]);
    expect(fieldsMissing('rain: { last24h: 1 in }')).not.toContain('rain.last72h');
    expect(fieldsMissing('date: 2026-03-06')).not.toContain('date');
  });

  it('is told as understood, by its own name where it has one', () => {
    const { understood: told } = understood(
      'water: { main: 10 C }\ndate: 2026-03-06\nair: { mean24h: 8 C, yesterday: 12 C }',
    );
    expect(told).toContainEqual({ field: 'water.main', signal: 'waterC', value: 10 });
    expect(told).toContainEqual({ field: null, signal: 'airDrop24hC', workedOut: true, value: 4 });
    expect(told.map(({ signal }) => signal)).not.toContain('dayLengthChangeHPerWeek');
  });
});

describe('what follows from what is given', () => {
  it('the pocket against the lake, where both were measured, and neither alone', () => {
    expect(signals('water: { main: 10 C, pocket: 12.5 C }').pocketMinusMainC?.value).toBeCloseTo(2.5, 9);
    expect(signals('water: { pocket: 12.5 C }').pocketMinusMainC).toBeUndefined();
  });

  it('trends from means whose middles lie a known number of days apart, unless they are given', () => {
    const of = (air: string) => signals(`air: { ${air} }`);
    expect(of('mean24h: 10 C, mean3d: 8 C').airTrend3dCPerDay?.value).toBeCloseTo(2, 9);
    expect(of('mean24h: 10 C, mean3d: 8 C, trend3d: -1 C/day').airTrend3dCPerDay?.value).toBe(-1);
    expect(of('mean3d: 8 C, mean7d: 4 C').airTrend7dCPerDay?.value).toBeCloseTo(2, 9);
    expect(of('mean24h: 10 C, mean7d: 4 C').airTrend7dCPerDay?.value).toBeCloseTo(2, 9);
    expect(of('mean24h: 10 C, yesterday: 16 C').airDrop24hC?.value).toBeCloseTo(6, 9);
    expect(of('mean24h: 10 C, yesterday: 16 C, drop24h: 1 C').airDrop24hC?.value).toBe(1);
    expect(of('mean24h: 10 C').airTrend7dCPerDay).toBeUndefined();
  });

  it('hours since the rain from 2 mm on: of the last day, else of the two before it', () => {
    const since = (rain: string) => signals(`rain: { ${rain} }`).hoursSinceRain;
    expect(since('last24h: 2 mm')).toMatchObject({
      value: 12,
      low: 0,
      high: 24,
      source: { code: 'workedOut' },
    });
    expect(since('last24h: 1.9 mm')).toBeUndefined();
    expect(since('last24h: 0 mm, last72h: 20 mm')).toMatchObject({ value: 42, low: 24, high: 72 });
    expect(since('last72h: 20 mm, hoursSince: 5 h')?.value).toBe(5);
  });

  it('the temperature of what runs in from the rain’s own, else from the air of a rainy day', () => {
    const runoff = (text: string) => signals(text).runoffC;
    const measured = runoff('rain: { last72h: 30 mm, temperature: 12 C }\nwater: { main: 8 C }');
    expect(measured?.value).toBeGreaterThan(8);
    expect(measured?.value).toBeLessThan(12);
    const guessed = runoff('rain: { last72h: 30 mm }\nair: { mean24h: 12 C }\nwater: { main: 8 C }');
    expect(guessed?.value).toBeCloseTo(measured?.value ?? Number.NaN, 9);
    expect((guessed?.high ?? 0) - (guessed?.low ?? 0)).toBeGreaterThan(
      (measured?.high ?? 0) - (measured?.low ?? 0),
    );
    expect(runoff('rain: { last72h: 1 mm }\nair: { mean24h: 12 C }')).toBeUndefined();
  });

  it('a clear cold night since the rain from its low, the water and the sky', () => {
    const night = (rest: string, hours = 20) =>
      signals(`rain: { hoursSince: ${hours} h }\nwater: { main: 12 C }\n${rest}`).clearColdNightSinceRain
        ?.value;
    expect(night('air: { overnightLow: 2 C }\nsky: 20 %')).toBeCloseTo(1, 9);
    expect(night('air: { overnightLow: 2 C }\nsky: 80 %')).toBeCloseTo(0.2, 9);
    expect(night('air: { overnightLow: 5 C }\nsky: 20 %')).toBeCloseTo(0.5, 9);
    expect(night('air: { overnightLow: 8 C }\nsky: 20 %')).toBe(0);
    expect(night('air: { overnightLow: 2 C }\nsky: 20 %', 7)).toBeUndefined();
    expect(night('')).toBeUndefined();
  });

  it('a pocket of warm runoff loses to a clear cold night what one of cold runoff does not', () => {
    const pocket = (rainC: number, night: boolean) =>
      signals(
        `rain: { last72h: 40 mm, temperature: ${rainC} C, hoursSince: 24 h, clearColdNightSince: ${night} }\nwater: { main: 10 C }`,
      ).pocketMinusMainC?.value ?? Number.NaN;
    expect(pocket(16, false)).toBeGreaterThan(0);
    expect(pocket(16, true)).toBeCloseTo(0.2 * pocket(16, false), 9);
    expect(pocket(3, false)).toBeLessThan(0);
    expect(pocket(3, true)).toBeCloseTo(pocket(3, false), 9);
  });

  it('turbidity from the clarity', () => {
    const [clear, muddy] = ['4 m', '0.3 m'].map(
      (clarity) => signals(`water: { clarity: ${clarity} }`).turbidityFnu?.value,
    );
    expect(clear).toBeLessThan(muddy ?? Number.NaN);
  });

  it('day length grows before the summer solstice and shrinks after it, over New Year too', () => {
    const change = (date: string) =>
      signals(`date: ${date}\nlatitude: 45`).dayLengthChangeHPerWeek?.value ?? Number.NaN;
    for (const [date, day] of [
      ['2026-01-01', 1],
      ['2026-03-20', 79],
      ['2026-12-31', 365],
    ] as const)
      expect(signals(`date: ${date}\nlatitude: 45`).dayLengthH?.value, date).toBe(dayLengthH(45, day));
    expect(change('2026-03-20')).toBeGreaterThan(0.3);
    expect(change('2026-09-22')).toBeLessThan(-0.3);
    expect(change('2026-01-02')).toBeGreaterThan(0);
    expect(change('2026-01-02')).toBeLessThan(0.2);
    expect(Math.abs(change('2026-06-21'))).toBeLessThan(0.05);
    expect(understood('date: 2026-03-20').assumptions).toContainEqual({ code: 'dayLength', usualLatDeg: 35 });
    expect(understood('date: 2026-03-20\nlatitude: 45').assumptions).toContainEqual({
      code: 'dayLength',
      usualLatDeg: null,
    });
  });
});

describe('the hours of a form', () => {
  const DAY = `date: 2026-04-10
latitude: 35
water: { main: 15 C }
fishing: { from: '06:00', to: '12:00' }
hours:
  - { at: '00:00', air: 5 C, cloud: 0 %, wind: 1 m/s, gust: 2 m/s, rain: 0 mm, thunder: 0 %, pocket: 16 C }
  - { at: '08:00', air: 12 C, cloud: overcast, wind: 3 m/s, gust: 6 m/s, rain: 1 mm, thunder: 10 %, pocket: 18 C }
  - { at: '12:00', air: 20 C, cloud: 0 %, wind: 9 m/s, gust: 15 m/s, rain: 0 mm, thunder: 80 %, pocket: 25 C }
`;
  const value = (id: SignalId) => signals(DAY)[id]?.value;

  it('make the day from those that are fished: means of wind and cloud, extremes of gusts, thunder and pocket', () => {
    expect(value('windMs')).toBeCloseTo((2 * 1 + 4 * 3) / 6, 9);
    expect(value('windMaxMs')).toBe(3);
    expect(value('gustMs')).toBe(6);
    expect(value('thunderPct')).toBe(10);
    expect(value('cloudPct')).toBeCloseTo((4 * 92) / 6, 9);
    expect(value('pocketMinusMainC')).toBeCloseTo(3, 9);
    expect(value('pocketC')).toBeCloseTo(18, 9);
  });

  it('and from all of them its warmest and coldest air and its rain', () => {
    expect([value('airMaxTodayC'), value('airMinTodayC')]).toEqual([20, 5]);
    expect(value('rainNext24Mm')).toBeCloseTo(4, 9);
  });

  it('have low light while the sun is under six degrees or the sky is dull', () => {
    // By local noon at 12:00 the sun of 10 April at 35 degrees north rises at 05:36: from 06:00 on it stands above six
    // degrees in the middle of each hour, from 05:00 to 06:00 below; four hours are dull.
    expect(value('lowLightShare')).toBeCloseTo(4 / 6, 9);
    const earlier = signals(DAY.replace("from: '06:00'", "from: '05:00'"));
    expect(earlier.lowLightShare?.value).toBeCloseTo(5 / 7, 9);
  });

  it('take the wind from one of sixteen points or in degrees, however written', () => {
    const from = (written: string) =>
      understood(`hours: [{ at: '00:00', windFrom: ${written} }]`).day.hours[0]?.windFromDeg;
    const points = [
      'N',
      'NNE',
      'NE',
      'ENE',
      'E',
      'ESE',
      'SE',
      'SSE',
      'S',
      'SSW',
      'SW',
      'WSW',
      'W',
      'WNW',
      'NW',
      'NNW',
    ];
    points.forEach((point, i) => {
      expect(from(`"${point}"`), point).toBe(22.5 * i);
      expect(from(`"${point.toLowerCase()}"`), point).toBe(22.5 * i);
    });
    expect(['225', '"225 deg"', '"225°"', '360', '0', '22.5'].map(from)).toEqual([225, 225, 225, 0, 0, 22.5]);
    for (const wrong of ['361', '-1', 'NNX', 'to 90', '90 east', ''])
      expect(faults({ hours: [{ at: '06:00', windFrom: wrong }] }), wrong).toMatchObject([
        { path: ['hours', 0, 'windFrom'] },
      ]);
    expect(() => read(`hours: [{ at: '06:00', windFrom: NNX }]`)).toThrow(/one of N, NNE, NE, .*, NW, NNW/);
  });
});

describe('the light of a form', () => {
  const fishing = (text: string) => {
    const day = understood(text).day.fishing;
    return day === null ? null : [day.fromMs, day.toMs].map((ms) => new Date(ms).toISOString().slice(11, 16));
  };
  it('is bounded by the dawn and dusk that are given, alone or with a date', () => {
    expect(fishing(`sun: { dawn: '05:40', dusk: '18:50' }`)).toEqual(['05:40', '18:50']);
    expect(fishing(`date: 2026-04-10\nsun: { dawn: '05:40' }`)?.[0]).toBe('05:40');
    expect(fishing(`date: 2026-04-10\nsun: { dusk: '18:50' }`)?.[1]).toBe('18:50');
    expect(fishing(`sun: { dawn: '05:40' }`)).toBeNull();
    expect(fishing(`sun: { rise: '06:10' }`)).toBeNull();
    expect(fishing(`sun: { set: '18:10' }`)).toBeNull();
  });
  it('reaches half an hour beyond the rise and set that are given, and lies about their middle', () => {
    const [from = '', to = ''] = fishing(`date: 2026-04-10\nsun: { rise: '06:30', set: '19:10' }`) ?? [];
    const minutes = (time: string): number => Number(time.slice(0, 2)) * 60 + Number(time.slice(3));
    expect((minutes(from) + minutes(to)) / 2).toBeCloseTo(770, 0);
    expect(390 - minutes(from)).toBeGreaterThan(20);
    expect(390 - minutes(from)).toBeLessThan(35);
  });
  it('moves with the noon that is given', () => {
    const of = (noon: string) => fishing(`date: 2026-04-10\nlatitude: 35\nsun: { noon: '${noon}' }`);
    const hour = (times: readonly string[] | null) =>
      Number(times?.[0]?.slice(0, 2)) * 60 + Number(times?.[0]?.slice(3));
    expect(hour(of('13:10')) - hour(of('12:10'))).toBe(60);
  });
});

describe('a form that cannot be read', () => {
  it('names as a code what is wrong, with what was found and the units it may have', () => {
    expect(faults({ water: { main: '50 G' } })).toEqual([
      expect.objectContaining({ path: ['water', 'main'], code: 'unknownUnit', found: 'G', example: '47 F' }),
    ]);
    expect(faults({ water: { main: 50 } })).toMatchObject([{ code: 'noUnit', found: '50' }]);
    expect(faults({ water: { main: 'warm' } })).toMatchObject([{ code: 'notQuantity', found: 'warm' }]);
    expect(faults({ water: { main: '500 F' } })).toMatchObject([{ code: 'outOfRange', found: '500 F' }]);
    expect(faults({ sky: 'dark' })).toMatchObject([{ words: ['clear', 'partly', 'overcast'] }]);
    expect(faults({ water: { mian: '50 F' } })).toEqual([{ path: ['water'] }]);
  });
  it('names what cannot be so together, and where', () => {
    expect(faults({ hours: [{ at: '08:00' }, { at: '07:00' }] })).toEqual([
      { path: ['hours', 1, 'at'], code: 'hourOrder', before: '08:00', at: '07:00' },
    ]);
    expect(faults({ sun: { rise: '07:00', set: '06:00' } })).toEqual([
      {
        path: ['sun', 'set'],
        code: 'sunOrder',
        first: 'rise',
        firstAt: '07:00',
        then: 'set',
        thenAt: '06:00',
      },
    ]);
    expect(
      faults({ sun: { dawn: '05:00', rise: '06:00', noon: '12:00', set: '18:00', dusk: '19:00' } }),
    ).toEqual([]);
    expect(faults({ wind: { speed: '10 mph', gust: '5 mph' } })).toMatchObject([
      { code: 'gustBelowWind', at: null },
    ]);
    expect(faults({ waterBody: 'pond', flow: { generation: 'on' } })).toMatchObject([{ code: 'noTurbines' }]);
  });
});

describe('the printed form', () => {
  const lines = whatIfTemplate().split('\n');
  it('says of each field what it is, behind an example, with the words it may take', () => {
    const fields = lines.slice(3).filter((line) => / # /.test(line));
    expect(fields.length).toBeGreaterThan(50);
    for (const line of fields) expect(line).toMatch(/^# .*\w+: \S.* # [a-z]{2,}/);
    expect(lines.find((line) => line.startsWith('# time:'))).toMatch(
      /\(dawn, morning, midday, afternoon, evening, dusk, night\)$/,
    );
    expect(lines.find((line) => line.startsWith('# units:'))).toMatch(/\(us, metric\)$/);
    for (const group of ['air', 'rain', 'level', 'wind', 'water', 'flow', 'layer', 'fishing', 'sun'])
      expect(lines).toContain(`# ${group}:`);
    expect(lines.filter((line) => /^# {3}set: "18:12"/.test(line))).toHaveLength(1);
  });
  it('is of the version that it names', () => {
    expect(lines[2]).toBe('schema: thawline-conditions/1');
    expect(read(lines.join('\n'))).toEqual({ schema: 'thawline-conditions/1' });
  });
});

describe('one field varied', () => {
  const form = read('water: { main: 47 F }\nbank: steep');
  it('keeps its decimals, a group’s other fields, and fields of no group', () => {
    const steps = varied(form, 'water.main=42.5..46.5 F');
    expect(steps.map(({ written }) => written).slice(0, 3)).toEqual(['42.5 F', '43 F', '43.5 F']);
    expect(varied(form, 'bank=10 deg..90 deg')[8]?.form).toEqual({ ...form, bank: '90 deg' });
    expect(varied(form, 'rain.last24h=0 mm..8 mm')[8]?.form).toEqual({ ...form, rain: { last24h: '8 mm' } });
    expect(varied(form, 'latitude=30..46')[1]?.form.latitude).toBe(32);
  });
  it.each([
    'water.main',
    'water.main=40 F',
    'water.main=40 F..50 F..60 F',
    'water.main=40 F..50 C',
    'water.main=x..y F',
    '=1..2',
  ])('cannot be %j', (text) => {
    expect(() => varied(form, text)).toThrow(/--vary/);
  });
});
