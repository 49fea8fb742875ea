// World Weather and Climate Extremes Archive, World Meteorological Organization (values from memory): what really happened must be believed.
import { describe, expect, it } from 'vitest';
import { judgeSeries } from '../../src/record/quality/index.ts';
import type { Observation } from '../../src/record/index.ts';
import { row } from './rows.ts';

const doubtOf = (part: Partial<Observation>) => judgeSeries([[row(part)]])[0]?.[0]?.doubt?.code;

describe('records of the World Meteorological Organization', () => {
  it.each([
    ['hottest air, Furnace Creek 1913', { variable: 'air_temp', value: 56.7 }],
    ['coldest air of the northern hemisphere, Klinck 1991', { variable: 'air_temp', value: -69.6 }],
    ['highest pressure below 750 m, Agata 1968', { variable: 'pressure', value: 1083.8 }],
    ['strongest gust, Barrow Island 1996', { variable: 'wind_gust', value: 113.2 }],
    ['most rain in 42 minutes, Holt 1947', { variable: 'rain', value: 305, periodS: 3600 }],
    ['most rain in a day, Foc-Foc 1966', { variable: 'rain', value: 1825, periodS: 86_400 }],
  ] as const)('%s is possible', (_, part) => {
    expect(doubtOf(part)).toBeUndefined();
  });

  it.each([
    ['air of 60 degC', { variable: 'air_temp', value: 60 }],
    ['a day’s record rain within one hour', { variable: 'rain', value: 1825, periodS: 3600 }],
    ['negative rain', { variable: 'rain', value: -0.1, periodS: 3600 }],
    ['the usual code for missing, -999999', { variable: 'level', value: -999_999 }],
    ['the usual code for missing, -9999', { variable: 'water_temp', value: -9999 }],
    ['water in degF taken for degC', { variable: 'water_temp', value: 48 }],
  ] as const)('%s is not', (_, part) => {
    expect(doubtOf(part)).toBe('doubt.impossible');
  });
});
