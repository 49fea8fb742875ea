import { readFileSync } from 'node:fs';
import { gunzipSync } from 'node:zlib';
import { addDays } from '../src/units/time/calendar.ts';

export type FishSpecies = 'largemouth' | 'smallmouth';

/** One electrofishing event: what was measured at the site, and what was caught there. SI; null where not measured. */
export interface FishEvent {
  readonly date: string;
  readonly pool: string;
  readonly latDeg: number;
  readonly year: number;
  /** Events are compared within one pool, year and period only. */
  readonly group: string;
  readonly stratum: string;
  /** Local hour of the start, 0 to 24. */
  readonly hour: number | null;
  readonly waterC: number | null;
  readonly change7dC: number | null;
  readonly clarityM: number | null;
  readonly depthM: number | null;
  readonly currentMs: number | null;
  /** Cover of water plants, 0 to 3. */
  readonly plants: number | null;
  /** 1 silt, 2 silt and clay, 3 sand, 4 gravel, rock or hard clay. */
  readonly bottom: number | null;
  readonly wood: boolean;
  readonly wingDam: boolean;
  readonly mouth: boolean;
  readonly riprap: boolean;
  readonly flooded: boolean;
  /** Fish of 200 mm and more a minute. */
  readonly caught: Readonly<Record<FishSpecies, number>>;
}

const FIXTURE = new URL('../fixtures/fish/electrofishing-even-years.csv.gz', import.meta.url);
const LATITUDE: Readonly<Record<string, number>> = {
  '4': 44.4,
  '8': 43.6,
  '13': 42.0,
  '26': 38.9,
  LG: 40.3,
  OR: 37.3,
};
const USUAL_MINUTES = 15;
/** Warmer than this no river of the region gets: the thermometer was read in Fahrenheit. */
const WARMEST_C = 40;
/** From June to October none of them is colder. */
const COLDEST_C = 2;

type Row = Readonly<Record<string, string>>;

function rowsOf(text: string): Row[] {
  const [head = '', ...lines] = text.trim().split(/\r?\n/);
  const names = head.split(',');
  return lines.map((line) => {
    const fields = line.split(',');
    return Object.fromEntries(names.map((name, i) => [name, fields[i] ?? '']));
  });
}

const within = (text: string | undefined, low: number, high: number): number | null => {
  const value = text === undefined || text.trim() === '' ? NaN : Number(text);
  return value >= low && value <= high ? value : null;
};

function waterOf(text: string | undefined): number | null {
  const written = within(text, COLDEST_C, 110);
  if (written === null) return null;
  return written > WARMEST_C ? (written - 32) / 1.8 : written;
}

function hourOf(text: string | undefined): number | null {
  const match = /^(\d+):(\d+)/.exec(text ?? '');
  return match === null ? null : Number(match[1]) + Number(match[2]) / 60;
}

export function medianOf(values: readonly number[]): number | null {
  const sorted = [...values].sort((a, b) => a - b);
  if (sorted.length === 0) return null;
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2;
}

/** Median water of a pool over four days, against the four days a week before; null where either is missing. */
function weeklyChange(rows: readonly Row[]): (pool: string, date: string) => number | null {
  const byDay = new Map<string, number[]>();
  for (const row of rows) {
    const waterC = waterOf(row['temp']);
    const key = `${row['pool']} ${row['date']}`;
    if (waterC !== null) byDay.set(key, [...(byDay.get(key) ?? []), waterC]);
  }
  const around = (pool: string, date: string): number | null =>
    medianOf([-3, -2, -1, 0].flatMap((offset) => byDay.get(`${pool} ${addDays(date, offset)}`) ?? []));
  return (pool, date) => {
    const now = around(pool, date);
    const before = around(pool, addDays(date, -7));
    return now === null || before === null ? null : now - before;
  };
}

/**
 * The events of a file, by default the even years of the fixture.
 *
 * @param path CSV, plain or gzipped, with the columns of fixtures/fish/README.md; others are passed over
 */
export function fishEvents(path: string | URL = FIXTURE): FishEvent[] {
  const bytes = readFileSync(path);
  const zipped = bytes[0] === 0x1f && bytes[1] === 0x8b;
  const rows = rowsOf((zipped ? gunzipSync(bytes) : bytes).toString('utf8'));
  const change = weeklyChange(rows);
  return rows.map((row): FishEvent => {
    const pool = row['pool'] ?? '';
    const date = row['date'] ?? '';
    const latDeg = LATITUDE[pool];
    if (latDeg === undefined) throw new Error(`Event ${row['event']}: the pool "${pool}" is not known.`);
    const minutes = within(row['effmin'], 1, 120) ?? USUAL_MINUTES;
    const caughtOf = (column: string): number => (within(row[column], 0, 1e4) ?? 0) / minutes;
    const clarityCm = within(row['secchi'], 1, 600);
    return {
      date,
      pool,
      latDeg,
      year: Number(date.slice(0, 4)),
      group: `${pool} ${date.slice(0, 4)} ${row['period']}`,
      stratum: row['stratum'] ?? '',
      hour: hourOf(row['stime']),
      waterC: waterOf(row['temp']),
      change7dC: change(pool, date),
      clarityM: clarityCm === null ? null : clarityCm / 100,
      depthM: within(row['depth'], 0.05, 20),
      currentMs: within(row['current'], 0, 4),
      plants: within(row['esveg92'], 0, 3),
      bottom: within(row['substrt'], 1, 4),
      wood: row['snag'] === '1',
      wingDam: row['wingdyke'] === '1',
      mouth: row['trib'] === '1',
      riprap: row['riprap'] === '1',
      flooded: row['flooded'] === '1',
      caught: { largemouth: caughtOf('lmb200'), smallmouth: caughtOf('smb200') },
    };
  });
}
