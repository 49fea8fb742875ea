/** Levels of danger by what the day is to somebody in a small boat. Thresholds are ours unless a source is named. */
import { describe, expect, it } from 'vitest';
import { avoidedHours, judgeSafety, safetyHour } from '../../../src/advice/safety/index.ts';
import type { HourPoint, SignalId } from '../../../src/signals/types.ts';
import { expandQuantities } from '../../../src/units/index.ts';
import { CALM, CHECKED, conditions, ids, judge, table } from './day.ts';

const MPH = 0.44704;
const FT = 0.3048;
const toC = (f: number): number => (f - 32) / 1.8;
const windy = (mph: number, waterF: number, more: object = {}) => ({
  waterC: toC(waterF),
  airMaxTodayC: toC(waterF),
  airMinTodayC: toC(waterF) - 4,
  windMs: mph * MPH,
  windMaxMs: mph * MPH,
  gustMs: mph * MPH * 1.3,
  ...more,
});

describe('wind over cold water', () => {
  it('of 16 mph over 58 F asks for extra care, and sends nobody ashore', () => {
    const day = judge(windy(16, 58));
    expect(day.level).toBe(2);
    expect(JSON.stringify(day.hazards)).not.toMatch(/ashore/i);
    expect(ids(day)).toContain('cold-water-wind');
  });

  it('is named from a sustained 15 mph, and not before', () => {
    expect(ids(judge(windy(15, 58)))).toContain('cold-water-wind');
    expect(ids(judge(windy(14, 58), { fetchM: 300 })).filter((id) => id.includes('wind'))).toEqual([]);
  });

  it('is serious where gusts reach 25 mph, and not at 24', () => {
    expect(judge(windy(16, 58, { gustMs: 25 * MPH })).level).toBe(3);
    expect(judge(windy(16, 58, { gustMs: 24 * MPH })).level).toBe(2);
  });

  it('is serious over a long run of water below 50 F, and only there', () => {
    expect(judge(windy(16, 48), { fetchM: 5000 }).level).toBe(3);
    expect(judge(windy(16, 48), { fetchM: 800 }).level).toBe(2);
    expect(judge(windy(16, 52), { fetchM: 5000 }).level).toBe(2);
  });

  it('is one block: the severest word, with the numbers of wind, gusts and waves', () => {
    const day = judge(windy(16, 58, { gustMs: 31 * MPH }), { fetchM: 6000 });
    const ofWind = day.hazards.filter(({ id }) => /wind|gust|wave/.test(id));
    expect(ofWind.map(({ id }) => id)).toEqual(['cold-water-gusts']);
    const said = expandQuantities(ofWind[0]!.what, 'us');
    expect(said).toMatch(/Wind up to 16 mph/);
    expect(said).toMatch(/Gusts up to 31 mph/);
    expect(said).toMatch(/Waves of about/);
  });

  it('calls the sheltered bank by where it lies, never a lee shore', () => {
    const said = JSON.stringify([judge(windy(16, 58)), judge(windy(22, 75))]);
    expect(said).toMatch(/the sheltered bank, the one the wind comes from,/);
    expect(said).not.toMatch(/lee shore|upwind|downwind/i);
  });

  it('names bank and end of the water by the compass where the wind of its hours is known', () => {
    const hours = [
      { fromMs: 0, toMs: 3_600_000, windMs: 2, windFromDeg: 90 },
      { fromMs: 3_600_000, toMs: 7_200_000, windMs: 16 * MPH, windFromDeg: 300 },
      { fromMs: 7_200_000, toMs: 10_800_000, windMs: 15 * MPH, windFromDeg: 330 },
    ];
    const calm = { gustMs: 5, windMaxMs: 16 * MPH, windMs: 5 };
    const said = JSON.stringify(judge({ waterC: 23, airMaxTodayC: 26, ...calm }, { hours, fetchM: 9000 }));
    expect(said).toMatch(/the sheltered northwest bank/);
    const rough = JSON.stringify(judge({ ...calm, waterC: 23, airMaxTodayC: 26 }, { hours, fetchM: 20_000 }));
    expect(rough).toMatch(/Open water, most at its southeast end/);
    expect(said + rough).not.toMatch(/shelteredBank|endOfWind|banksOfWind/);
  });

  it('names no side where the wind turns through its hours', () => {
    const hours = [0, 90, 180, 270].map((windFromDeg, hour) => ({
      fromMs: hour * 3_600_000,
      toMs: (hour + 1) * 3_600_000,
      windMs: 16 * MPH,
      windFromDeg,
    }));
    const said = JSON.stringify(judge(windy(22, 75), { hours, fetchM: 900 }));
    expect(said).toMatch(/the one the wind comes from/);
    expect(said).not.toMatch(/sheltered (north|east|south|west)/);
  });
});

describe('cold water', () => {
  it('is not spoken of above 70 F, also where the estimate is unsure', () => {
    const july = { value: toC(74), low: toC(68), high: toC(80), kind: 'estimated' as const };
    expect(JSON.stringify(judge({ waterC: july, airMaxTodayC: 30 }).hazards)).not.toMatch(/cold/i);
    expect(ids(judge({ waterC: toC(69), airMaxTodayC: 25 }))).toContain('cold-water');
  });
});

describe('a river below a dam', () => {
  const river = { waterC: 18, airMaxTodayC: 20, generationOn: 1 };

  it('that runs 5 ft/s and rose 6 ft in 6 h is level 4, with the rise given over six hours alone', () => {
    const signals = { ...CALM, ...river, currentMs: 5 * FT, level6hM: 6 * FT };
    const { level24hM: _day, levelRateMPerH: _rate, ...known } = signals;
    const day = judgeSafety(conditions(known), table, { ...CHECKED, belowDam: true });
    expect(day.level).toBe(4);
    expect(day.hazards[0]).toMatchObject({ id: 'fast-water-rising', closes: true });
  });

  it('judges the rise by the hour from the fastest span given', () => {
    expect(ids(judge({ ...river, level6hM: 0.7 }))).toContain('rising-rate');
    expect(judge({ ...river, level6hM: 0.7 }).level).toBe(3);
    expect(judge({ ...river, level6hM: 0.1 }).level).toBe(1);
  });

  it('takes six hours of rise for at least that in a day', () => {
    const { level24hM: _day, ...known } = { ...CALM, level6hM: 0.4 };
    expect(ids(judgeSafety(conditions(known), table, CHECKED)).join(' ')).toMatch(/ris/);
  });

  it.each([
    ['a release that lifts the river', { generationOn: 1, level6hM: 0.3 }, 'release-rising', 3],
    ['a high river that rises', { dischargeRatio: 4, level6hM: 0.7 }, 'high-flow-rising', 4],
    ['a high river that runs fast', { dischargeRatio: 4, currentMs: 1 }, 'fast-water-high-flow', 3],
    ['current alone', { currentMs: 1.55 }, 'current', 3],
    ['swift water', { currentMs: 1 }, 'current', 2],
  ] as const)('is judged together: %s', (_, signals, id, level) => {
    const day = judge({ waterC: 22, airMaxTodayC: 24, ...signals });
    expect(ids(day)).toContain(id);
    expect(day.hazards.find((hazard) => hazard.id === id)!.level).toBe(level);
  });

  it('is no hazard while it neither runs, rises nor releases', () => {
    expect(judge({ waterC: 22, currentMs: 0.3, level6hM: 0, generationOn: 0 }).level).toBe(1);
  });
});

describe('debris', () => {
  it.each([
    ['in mud', { level72hM: 0.45, clarityM: 0.4 }],
    ['in a release', { level72hM: 0.45, generationOn: 1 }],
  ])('is expected after a rise of 0.4 m in three days %s', (_, signals) => {
    expect(ids(judge(signals)).join(' ')).toMatch(/debris/);
    expect(ids(judge({ ...signals, level72hM: 0.35 })).join(' ')).not.toMatch(/debris/);
  });

  it('is one block however many signs it has', () => {
    const day = judge({ rain72Mm: 60, level24hM: 0.2, level72hM: 0.5, clarityM: 0.3, generationOn: 1 });
    expect(ids(day).filter((id) => id.startsWith('debris'))).toHaveLength(1);
  });
});

describe('the night’s low', () => {
  it('gives ice at the ramp and the wind chill, also where the day turns mild', () => {
    const day = judge({
      airMinLastNightC: -6,
      airMinTodayC: 2,
      airMaxTodayC: 12,
      waterC: 9,
      windMs: 4,
      windMaxMs: 4,
    });
    expect(ids(day)).toContain('ramp-ice');
    expect(ids(day)).toContain('wind-chill');
    expect(day.hazards.find(({ id }) => id === 'ramp-ice')!.level).toBe(2);
  });

  it('above freezing gives neither', () => {
    expect(ids(judge({ airMinLastNightC: 3, airMinTodayC: 3, waterC: 9, airMaxTodayC: 12 }))).not.toContain(
      'ramp-ice',
    );
  });
});

describe('algae', () => {
  const still = { waterC: 27, windMs: 1.5, windMaxMs: 2, clarityM: 0.8, airMaxTodayC: 30 };

  it('are asked about in warm, still, murky standing water, and the answer is left to those who measure', () => {
    const found = judge(still).hazards.find(({ id }) => id === 'algae')!;
    expect(found.doThis).toMatch(/Ask the health office/);
  });

  it.each([
    ['clear', { clarityM: 3 }],
    ['windy', { windMs: 5, windMaxMs: 5 }],
    ['cool', { waterC: 20 }],
    ['muddy from rain', { rain72Mm: 40 }],
  ])('are not where the water is %s', (_, more) => {
    expect(ids(judge({ ...still, ...more }))).not.toContain('algae');
  });
});

describe('hours of a hazard', () => {
  const dawn = Date.parse('2026-03-07T06:00:00-06:00');
  const HOUR_MS = 3_600_000;
  const hours = (windAt: (hour: number) => number, more: (hour: number) => Partial<HourPoint> = () => ({})) =>
    Array.from({ length: 12 }, (_, index): HourPoint => {
      const hour = 6 + index;
      return {
        atMs: dawn + index * HOUR_MS,
        windMs: windAt(hour),
        sunAltitudeDeg: 40 * Math.sin((Math.PI * (hour - 5.5)) / 13),
        forecast: true,
        ...more(hour),
      };
    });
  const judged = (signals: Partial<Record<SignalId, number>>, points: HourPoint[]) =>
    judgeSafety(conditions({ ...CALM, ...signals }), table, { ...CHECKED, hours: points.map(safetyHour) });

  it('are those in which its number reaches its level, from the start of the hour', () => {
    const day = judged(
      { windMs: 6, windMaxMs: 12.5 },
      hours((hour) => (hour >= 11 && hour < 14 ? 12.5 : 4)),
    );
    const wind = day.hazards.find(({ id }) => id === 'wind')!;
    expect(wind).toMatchObject({
      level: 3,
      closes: true,
      hours: [{ fromMs: dawn + 5 * HOUR_MS, toMs: dawn + 8 * HOUR_MS }],
    });
  });

  it('are apart where it comes twice, and cover what is merely serious around the worst', () => {
    const day = judged(
      { windMs: 6, windMaxMs: 16 },
      hours((hour) => (hour === 8 ? 12 : hour === 9 ? 16 : hour === 14 ? 12 : 4)),
    );
    const wind = day.hazards.find(({ id }) => id === 'wind')!;
    expect(wind.level).toBe(4);
    expect(wind.hours).toEqual([
      { fromMs: dawn + 2 * HOUR_MS, toMs: dawn + 4 * HOUR_MS },
      { fromMs: dawn + 8 * HOUR_MS, toMs: dawn + 9 * HOUR_MS },
    ]);
  });

  it('are left out where it stands all day, and where no hour is known', () => {
    expect(
      judged(
        { waterC: 8 },
        hours(() => 3),
      ).hazards.find(({ id }) => id === 'cold-water')!.hours,
    ).toBeUndefined();
    expect(judged({ windMaxMs: 12 }, []).hazards.find(({ id }) => id === 'wind')!.hours).toBeUndefined();
  });

  it('of fog are the still, saturated ones with a low sun', () => {
    const day = judged(
      {},
      hours(
        () => 1,
        (hour) => ({ humidityPct: hour < 8 ? 99 : 70, airC: 15 }),
      ),
    );
    const fog = day.hazards.find(({ id }) => id === 'fog')!;
    expect(fog.level).toBe(2);
    expect(fog.hours).toEqual([{ fromMs: dawn, toMs: dawn + 2 * HOUR_MS }]);
    expect(
      ids(
        judged(
          {},
          hours(
            () => 4,
            () => ({ humidityPct: 99, airC: 15 }),
          ),
        ),
      ),
    ).not.toContain('fog');
  });

  it('close nothing for cold water, ice and fog', () => {
    for (const id of ['cold-water', 'ice', 'ramp-ice', 'fog', 'fish-handling']) {
      expect(table.hazards.find((row) => row.id === id)!.closes, id).toBeUndefined();
    }
    for (const id of [
      'lightning',
      'wind',
      'gusts',
      'waves',
      'heat',
      'hot-air',
      'rising-water',
      'strong-flow',
      'current',
    ]) {
      expect(table.hazards.find((row) => row.id === id)!.closes, id).toBe(true);
    }
  });
});

describe('hours that heat takes out', () => {
  const hot = judgeSafety(conditions({ ...CALM, airMaxTodayC: 39 }), table, CHECKED);
  const dry = judgeSafety(conditions({ ...CALM, airMaxTodayC: 37 }), table, { ...CHECKED, humidityPct: 15 });
  const moist = judgeSafety(conditions({ ...CALM, airMaxTodayC: 37 }), table, CHECKED);

  it('are those of the row, from its first hour to the hour after its last', () => {
    expect(avoidedHours(hot, table)).toEqual([11, 20]);
  });

  it('are none below a serious level', () => {
    expect(avoidedHours(dry, table)).toBeUndefined();
  });

  it('are those of moist air too where nobody knows how moist it is', () => {
    expect(avoidedHours(moist, table)).toEqual([11, 20]);
  });
});

describe('running in the dark', () => {
  it('is named where fishing hours lie outside civil light', () => {
    expect(ids(judge({}, { darkHours: 1.5 }))).toContain('running-in-the-dark');
    expect(ids(judge({}, { darkHours: 0 }))).not.toContain('running-in-the-dark');
  });
});
