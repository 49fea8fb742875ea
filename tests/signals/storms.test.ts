/** Thunder and fog by the weather model's own word, where no service gives a chance. */
import { readFileSync } from 'node:fs';
import { DateTime } from 'luxon';
import { describe, expect, it } from 'vitest';
import { loadRules } from '../../src/config/rules.ts';
import type { Config, LakeConfig } from '../../src/config/types.ts';
import type { Observation, Variable } from '../../src/record/types.ts';
import { adviseFrom } from '../../src/schedule/advice.ts';
import { humidityPct, isFogCode, isThunderCode } from '../../src/science/index.ts';
import { mapOpenMeteo } from '../../src/services/openMeteo/map.ts';
import { readSignals, type HourPoint } from '../../src/signals/index.ts';
import { observation, recordView, testLake } from '../helpers/weatherRecord.ts';

const AS_OF = '2026-07-16T10:15:00Z'; // 05:15 at the lake
const NOW = Date.parse(AS_OF);
const HOUR = 3_600_000;
const lake: LakeConfig = { ...testLake, pockets: [], gauges: [] };
const at = (clock: string): number => DateTime.fromISO(`2026-07-16T${clock}`, { zone: lake.zone }).toMillis();
const hours = Array.from({ length: 24 }, (_, hour) => at(`${String(hour).padStart(2, '0')}:00`));
const ahead = (variable: Variable, value: (atMs: number) => number, periodS = 0): Observation[] =>
  hours
    .filter((atMs) => atMs > NOW)
    .map((atMs) =>
      observation(variable, atMs, value(atMs), {
        source: 'open-meteo',
        station: '',
        kind: 'forecast',
        issuedMs: NOW - 15 * 60_000,
        periodS,
      }),
    );
const warm = (extra: readonly Observation[], rain = 0) => {
  const view = recordView({ asOf: AS_OF, pastDays: 45, extra, weather: () => ({ air: 25, rain, wind: 2 }) });
  return { view, report: readSignals(view, lake) };
};
const between = (from: string, to: string, inside: number, outside: number) => (atMs: number) =>
  atMs >= at(from) && atMs <= at(to) ? inside : outside;
const signs = (points: readonly HourPoint[], sign: number): string[] =>
  points
    .filter(({ stormSign }) => stormSign === sign)
    .map(({ atMs }) => DateTime.fromMillis(atMs, { zone: lake.zone }).toFormat('HH:mm'));
const rules = loadRules();
const config = { tackle: { reels: [], linesKg: [], castLengthM: 22.9 } } as unknown as Config;
const advised = (extra: readonly Observation[], rain = 0) => {
  const { view, report } = warm(extra, rain);
  return adviseFrom({ config, rules }, lake, view, report);
};

describe('code table 4677', () => {
  // WMO-No. 306, volume I.1, code table 4677 (https://www.nodc.noaa.gov/gtspp/document/codetbls/wmocodes/table4677.html).
  it('has thunder at the time in 17 and 95 to 99, and had it before in 29 and 91 to 94', () => {
    expect(Array.from({ length: 100 }, (_, ww) => ww).filter(isThunderCode)).toEqual([
      17, 95, 96, 97, 98, 99,
    ]);
  });
  it('has fog at the place in 41 to 49', () => {
    expect(Array.from({ length: 100 }, (_, ww) => ww).filter(isFogCode)).toEqual([
      41, 42, 43, 44, 45, 46, 47, 48, 49,
    ]);
  });
});

describe('the weather of a service', () => {
  it('brings the codes of coming hours alone into the record', () => {
    // Recorded in the open; source and licence in fixtures/services/README.md.
    const body = JSON.parse(
      readFileSync('fixtures/services/open-meteo/forecast_toronto_2026-03-05.json', 'utf8'),
    ) as { latitude: number; longitude: number; hourly: { time: string[]; weather_code: number[] } };
    const point = { id: 'a', latDeg: body.latitude, lonDeg: body.longitude };
    const all =
      mapOpenMeteo(body, [point], 0)[0]?.filter(({ variable }) => variable === 'weather_code') ?? [];
    expect(all.map(({ value }) => value)).toEqual(body.hourly.weather_code);
    const half = all[Math.floor(all.length / 2)]?.atMs ?? 0;
    const later = mapOpenMeteo(body, [point], half)[0]?.filter(({ variable }) => variable === 'weather_code');
    expect(later?.every(({ atMs, kind }) => atMs > half && kind === 'forecast')).toBe(true);
    expect(later).toHaveLength(all.filter(({ atMs }) => atMs > half).length);
  });
});

describe('signs of thunder', () => {
  it('stand in the hours that the model has it, less near them, and not elsewhere', () => {
    const { report } = warm(ahead('weather_code', between('15:00', '17:00', 95, 3)));
    expect(signs(report.hours, 1)).toEqual(['14:00', '15:00', '16:00', '17:00']);
    expect(signs(report.hours, 0.5)).toEqual(['12:00', '13:00', '18:00', '19:00']);
    expect(signs(report.hours, 0)).toContain('09:00');
  });

  it('close the hours of the storm, and leave the morning', () => {
    const { plan, safety } = advised(ahead('weather_code', between('15:00', '17:00', 95, 3)));
    expect(plan?.closed.map(({ from, to, hazard }) => [from, to, hazard])).toEqual([
      ['14:00', '18:30', 'storms'],
    ]);
    expect(plan?.blocks[0]?.toMs).toBeLessThanOrEqual(at('14:00'));
    expect(safety.hazards[0]).toMatchObject({ id: 'storms', level: 3 });
  });

  it.each([
    ['much energy and a shower', 1500, 1, 2],
    ['much energy and no shower', 1500, 0, null],
    ['extreme energy and no shower', 3000, 0, 2],
    ['little energy', 300, 1, null],
  ])('of %s raise the level to what it is', (_, energy, rain, level) => {
    const { safety, plan } = advised(
      ahead('cape', () => energy),
      rain,
    );
    const hazard = safety.hazards.find(({ id }) => id === 'storms');
    expect(hazard?.level ?? null).toBe(level);
    expect(plan?.closed.filter(({ hazard: id }) => id === 'storms')).toEqual([]);
  });

  it('say that nobody gave a chance, once, and not that nothing is known', () => {
    const { safety } = advised(ahead('weather_code', () => 3));
    expect(safety.notChecked).toContainEqual({ code: 'thunderBySigns' });
    expect(safety.notChecked).not.toContainEqual({ code: 'hazard', row: 'lightning' });
    expect(advised([]).safety.notChecked).toContainEqual({ code: 'hazard', row: 'lightning' });
  });

  it('yield to a chance that a service gives', () => {
    const chances = ahead('thunder', () => 5, 3600);
    const last = chances.slice(-1).map((row) => ({ ...row, atMs: row.atMs + HOUR }));
    const { safety } = advised([...ahead('weather_code', () => 95), ...chances, ...last]);
    expect(safety.hazards.map(({ id }) => id)).not.toContain('storms');
    expect(safety.notChecked).not.toContainEqual({ code: 'thunderBySigns' });
  });
});

describe('fog', () => {
  it('is told of hours in which the model has it', () => {
    const fog = (code: number) =>
      advised(ahead('weather_code', between('06:00', '08:00', code, 3))).safety.hazards.find(
        ({ id }) => id === 'fog',
      );
    expect(fog(45)).toMatchObject({ level: 2 });
    expect(fog(48)).toMatchObject({ level: 2 });
    expect(fog(40)).toBeUndefined();
  });

  it('follows from the dew point where no humidity is known', () => {
    const view = recordView({ asOf: AS_OF, pastDays: 45, weather: () => ({ air: 14, wind: 1 }) });
    const dry = view.observations.filter(({ variable }) => variable !== 'humidity');
    const of = (dewC: number) => {
      const own = { ...view, observations: [...dry, ...ahead('dew_point', () => dewC)] };
      return readSignals(own, lake).hours.find(({ atMs }) => atMs === at('06:00'))?.humidityPct;
    };
    expect(of(13.8)).toBeGreaterThan(96);
    expect(of(8)).toBeLessThan(70);
    // 20 degC and a dew point of 9.26 are 50 %: inverse of the example of `dewPointC`.
    expect(humidityPct(20, 9.26)).toBeCloseTo(50, 1);
  });
});
