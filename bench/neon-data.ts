import { readFileSync } from 'node:fs';
import { gunzipSync } from 'node:zlib';
import type { LakeSite, WeatherDay } from '../src/water/lake/index.ts';
import { numberOf, rowsOf } from './lake-data.ts';

const FOLDER = new URL('../fixtures/water/neon/', import.meta.url);

/** Spans whose water departs by more than 5 K for weeks from what the same site does in all other years. */
const FAULTY: Readonly<Record<string, readonly (readonly [string, string])[]>> = {
  MAYF: [
    ['2022-07-20', '2022-12-12'],
    ['2023-01-26', '2023-03-23'],
  ],
  BLUE: [['2021-07-23', '2021-08-17']],
  HOPB: [
    ['2020-08-04', '2020-08-26'],
    ['2022-06-28', '2022-07-22'],
  ],
  BLDE: [['2023-05-22', '2023-06-13']],
  MART: [
    ['2022-06-22', '2022-08-03'],
    ['2023-04-06', '2023-05-16'],
  ],
  // Two summers 7 and 11 K off on single days.
  PRLA: [
    ['2018-01-01', '2018-12-31'],
    ['2020-01-01', '2020-12-31'],
  ],
  TOMB: [['2018-07-01', '2018-12-31']],
};

/** No air is hotter than this: a faulty sensor or a unit, degC. */
const HOTTEST_C = 55;
const possible = (airC: number | null): number | null => (airC !== null && airC < HOTTEST_C ? airC : null);

export interface NeonSite {
  readonly name: string;
  readonly latDeg: number;
  readonly watershedKm2: number | null;
  readonly lake?: LakeSite;
  readonly weather: readonly WeatherDay[];
  readonly water: ReadonlyMap<string, number>;
}

const AREA_KM2: Readonly<Record<string, number>> = { SUGG: 0.31, CRAM: 0.26, PRLA: 0.18 };

/** All sites, lakes and flowing water, without the faulty spans. */
export function neonSites(air: 'air_temp_c' | 'air_model_c' = 'air_temp_c'): NeonSite[] {
  return rowsOf(readFileSync(new URL('sites.csv', FOLDER), 'utf8')).map((site) => {
    const name = site['site']!;
    const rows = rowsOf(
      gunzipSync(readFileSync(new URL(`${name.toLowerCase()}.csv.gz`, FOLDER))).toString('utf8'),
    );
    const faulty = FAULTY[name] ?? [];
    const water = new Map<string, number>();
    for (const row of rows) {
      const date = row['date']!;
      const waterC = numberOf(row['t_1m_c']) ?? numberOf(row['water_temp_c']);
      if (waterC !== null && !faulty.some(([from, to]) => date >= from && date <= to))
        water.set(date, waterC);
    }
    const latDeg = Number(site['lat']);
    const depthM = numberOf(site['lake_depth_mean_m']);
    return {
      name,
      latDeg,
      watershedKm2: numberOf(site['watershed_km2']),
      ...(depthM !== null && { lake: { latDeg, meanDepthM: depthM, areaKm2: AREA_KM2[name] ?? 1 } }),
      weather: rows.map((row) => ({
        date: row['date']!,
        airC: possible(numberOf(row[air]) ?? numberOf(row['air_temp_c'])),
      })),
      water,
    };
  });
}
