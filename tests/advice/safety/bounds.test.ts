/** Bounds of the dangers that no published table gives, each with a value on it and one beyond. */
import { describe, expect, it } from 'vitest';
import {
  avoidedHours,
  judgeSafety,
  type SafetyExtras,
  type SafetyHour,
} from '../../../src/advice/safety/index.ts';
import { CALM, CHECKED, conditions, table } from './day.ts';

const HOUR = 3_600_000;
const MORNING = Date.UTC(2026, 2, 7, 12);
type Signals = Parameters<typeof conditions>[0];
const hours = (...each: readonly Partial<SafetyHour>[]): SafetyHour[] =>
  each.map((more, i) => ({ fromMs: MORNING + i * HOUR, toMs: MORNING + (i + 1) * HOUR, ...more }));
const judged = (signals: Signals, extras: Partial<SafetyExtras> = {}, without: readonly string[] = []) => {
  const known = Object.fromEntries(
    Object.entries({ ...CALM, ...signals }).filter(([id]) => !without.includes(id)),
  );
  return judgeSafety(conditions(known), table, { ...CHECKED, ...extras });
};
const idsOf = (...given: Parameters<typeof judged>): string[] =>
  judged(...given)
    .hazards.flatMap((hazard) => [hazard, ...(hazard.also ?? [])])
    .map(({ id }) => id);

describe('fog', () => {
  const foggy = (point: Partial<SafetyHour>, waterC = 10): boolean =>
    idsOf({ waterC }, { hours: hours(point) }).includes('fog');
  const still = { windMs: 2.5, sunAltitudeDeg: 15, airC: 8 };
  // Near saturation in little wind with the sun low: common practice, no source.
  it('is likely from 96 % on, in wind of at most 2.5 m/s, with the sun no higher than 15 degrees', () => {
    expect(foggy({ ...still, humidityPct: 96 })).toBe(true);
    expect(foggy({ ...still, humidityPct: 95.9 })).toBe(false);
    expect(foggy({ ...still, humidityPct: 96, windMs: 2.6 })).toBe(false);
    expect(foggy({ ...still, humidityPct: 96, sunAltitudeDeg: 15.1 })).toBe(false);
    expect(foggy({ airC: 8, humidityPct: 99, sunAltitudeDeg: 5 })).toBe(false);
    expect(foggy({ airC: 8, humidityPct: 99, windMs: 1 })).toBe(false);
    expect(foggy(still)).toBe(false);
  });
  it('is likely over water twelve kelvins warmer than the air, however dry that is', () => {
    expect(foggy({ ...still, airC: 0, humidityPct: 50 }, 12)).toBe(true);
    expect(foggy({ ...still, airC: 0.1, humidityPct: 50 }, 12)).toBe(false);
    expect(foggy({ windMs: 1, sunAltitudeDeg: 5, humidityPct: 50 }, 30)).toBe(false);
  });
  it('is there when the weather model has it, in any wind', () => {
    expect(foggy({ fogCode: 1, windMs: 9, sunAltitudeDeg: 60 })).toBe(true);
    expect(foggy({ fogCode: 0, windMs: 9, sunAltitudeDeg: 60 })).toBe(false);
  });
});

describe('what was not checked', () => {
  const codes = (...given: Parameters<typeof judged>) => judged(...given).notChecked.map(({ code }) => code);
  it('is the humidity from 27 degrees on, and the air where nobody knows it', () => {
    expect(codes({ airMaxTodayC: 27 })).toContain('humidity');
    expect(codes({ airMaxTodayC: 26.9 })).not.toContain('humidity');
    expect(codes({ airMaxTodayC: 30 }, { humidityPct: 40 })).not.toContain('humidity');
    expect(codes({}, {}, ['airMaxTodayC', 'airNowC'])).toContain('air');
    expect(codes({})).not.toContain('air');
  });
  it('is thunder by its chance, where only signs of it are known', () => {
    const signs = { hours: hours({ stormSign: 0 }) };
    expect(codes({}, signs, ['thunderPct'])).toContain('thunderBySigns');
    expect(codes({}, signs)).not.toContain('thunderBySigns');
    expect(codes({}, {}, ['thunderPct'])).not.toContain('thunderBySigns');
  });
  it('are alerts and floods that nobody asked for', () => {
    expect(codes({}, { alertsChecked: false, floodCategory: 'unknown' })).toEqual(
      expect.arrayContaining(['alerts', 'flood']),
    );
    expect(codes({}).filter((code) => code === 'alerts' || code === 'flood')).toEqual([]);
  });
});

describe('water of a dam upstream', () => {
  const starting = (extras: Partial<SafetyExtras>) =>
    idsOf({}, { hours: hours({ releaseStart: 1 }), ...extras });
  it('begins to run where a dam lies upstream, and nowhere else', () => {
    expect(starting({ belowDam: true })).toContain('release-start');
    expect(starting({ belowDam: false })).not.toContain('release-start');
  });
  it('in hours that are past hurts nobody', () => {
    const past = hours({ releaseStart: 1 }).map((one) => ({
      ...one,
      fromMs: one.fromMs - 3 * HOUR,
      toMs: one.toMs - 3 * HOUR,
    }));
    expect(starting({ belowDam: true, hours: past })).not.toContain('release-start');
  });
});

describe('hazards', () => {
  it('stand with the highest first, each only in the hours in which it is so, those in a row as one', () => {
    const gusty = hours({ windMs: 3 }, { windMs: 14 }, { windMs: 15 }, { windMs: 3 }, { windMs: 14 });
    const { hazards, level } = judged({ windMs: 10, windMaxMs: 15, waterC: 6 }, { hours: gusty });
    const levels = hazards.map((hazard) => hazard.level);
    expect(levels).toEqual([...levels].sort((a, b) => b - a));
    expect(level).toBe(levels[0]);
    const wind = hazards
      .flatMap((hazard) => [hazard, ...(hazard.also ?? [])])
      .find(({ id }) => id === 'wind');
    expect(wind?.hours).toEqual([
      { fromMs: MORNING + HOUR, toMs: MORNING + 3 * HOUR },
      { fromMs: MORNING + 4 * HOUR, toMs: MORNING + 5 * HOUR },
    ]);
  });

  it('of heat take the hours that the table names out of the day, and those of a mild day none', () => {
    const heat = judged({ airMaxTodayC: 41 }, { humidityPct: 60 });
    expect(avoidedHours(heat, table)).toEqual([11, 20]);
    expect(avoidedHours(judged({}), table)).toBeUndefined();
  });
});
