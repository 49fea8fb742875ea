import { readFileSync } from 'node:fs';
import { gunzipSync } from 'node:zlib';
import { dewPointC } from '../src/science/index.ts';
import type { LakeSite, WaterReading, WeatherDay } from '../src/water/lake/index.ts';

/** A lake with weather and an observed daily water temperature; scored from `heldOutFrom` on. */
export interface ObservedLake {
  readonly name: string;
  readonly site: LakeSite;
  readonly weather: readonly WeatherDay[];
  readonly water: ReadonlyMap<string, number>;
  readonly heldOutFrom: string;
}

const FOLDER = new URL('../fixtures/water/lake/', import.meta.url);
const SITES: Readonly<Record<string, LakeSite>> = {
  Slawskie: { latDeg: 51.9, meanDepthM: 5.2, areaKm2: 8.2 },
  Selmet: { latDeg: 53.8, meanDepthM: 7.8, areaKm2: 12.1 },
  Charzykowskie: { latDeg: 53.8, meanDepthM: 9.8, areaKm2: 13.6 },
  Mikolajskie: { latDeg: 53.8, meanDepthM: 11.2, areaKm2: 4.98 },
};

type Row = Readonly<Record<string, string>>;

export function rowsOf(text: string): Row[] {
  const [head = '', ...lines] = text.trim().split(/\r?\n/);
  const names = head.split(',');
  return lines.map((line) => {
    const fields = line.split(',');
    return Object.fromEntries(names.map((name, i) => [name, fields[i] ?? '']));
  });
}

/** Rows of one gzipped fixture by column name. */
export function fixtureRows(file: string): Row[] {
  return rowsOf(gunzipSync(readFileSync(new URL(file, FOLDER))).toString('utf8'));
}

export function numberOf(text: string | undefined): number | null {
  return text === undefined || text.trim() === '' ? null : Number(text);
}

function observed(rows: readonly Row[]): Map<string, number> {
  const water = new Map<string, number>();
  for (const row of rows) {
    const waterC = numberOf(row['water_temp_c']);
    if (waterC !== null) water.set(row['date']!, waterC);
  }
  return water;
}

/** The four lakes of the fixtures: air temperature only, held out from 2001. */
export function fixtureLakes(): ObservedLake[] {
  const rows = fixtureRows('polish_lakes.csv.gz');
  return Object.entries(SITES).map(([name, site]) => {
    const own = rows.filter((row) => row['lake'] === name);
    return {
      name,
      site,
      weather: own.map((row) => ({ date: row['date']!, airC: numberOf(row['air_temp_c']) })),
      water: observed(own),
      heldOutFrom: '2001-01-01',
    };
  });
}

/** Lough Feeagh from a file that is not part of this project (its licence is another): full weather, held out from 2012. */
export function feeagh(path: string): ObservedLake {
  const rows = rowsOf(readFileSync(path, 'utf8'));
  const weather = rows.map((row): WeatherDay => {
    const [airC, windMs, solarWm2, rhPct] = ['air_temp_c', 'wind_ms', 'sw_wm2', 'rh_pct'].map((c) =>
      numberOf(row[c]),
    );
    return {
      date: row['date']!,
      airC: airC ?? null,
      ...(windMs != null && { windMs }),
      ...(solarWm2 != null && { solarWm2 }),
      ...(airC != null && rhPct != null && { dewPointC: dewPointC(airC, Math.min(100, rhPct)) }),
    };
  });
  return {
    name: 'Feeagh',
    site: { latDeg: 53.9, meanDepthM: 14.5, areaKm2: 3.95 },
    weather,
    water: observed(rows),
    heldOutFrom: '2012-01-01',
  };
}

/** One reading every so many days from the observed series; none when `everyDays` is 0. */
export function readingsEvery(lake: ObservedLake, everyDays: number): WaterReading[] {
  let last = -Infinity;
  const readings: WaterReading[] = [];
  if (everyDays === 0) return readings;
  for (const [date, waterC] of lake.water) {
    const day = Date.parse(date) / 86_400_000;
    if (day - last < everyDays) continue;
    last = day;
    readings.push({ date, waterC, depthM: 1, sdC: 0.1, source: 'logger' });
  }
  return readings;
}
