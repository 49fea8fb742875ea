import type { RiverBase, RiverKind, RiverWeatherDay } from '../src/water/river/index.ts';
import { fixtureRows, numberOf } from './lake-data.ts';

/** A river with weather, discharge and an observed daily water temperature; scored from `heldOutFrom` on. */
export interface ObservedRiver {
  readonly name: string;
  readonly kind: RiverKind;
  /** The free run fitted to this river's own calibration years. */
  readonly ownBase: RiverBase;
  readonly weather: readonly RiverWeatherDay[];
  readonly water: ReadonlyMap<string, number>;
  readonly heldOutFrom: string;
}

function river(file: string, rest: Pick<ObservedRiver, 'name' | 'kind' | 'ownBase'>): ObservedRiver {
  const rows = fixtureRows(file);
  const water = new Map<string, number>();
  const weather = rows.map((row): RiverWeatherDay => {
    const [airC, waterC, dischargeM3s] = ['air_temp_c', 'water_temp_c', 'discharge_m3s'].map((c) =>
      numberOf(row[c]),
    );
    if (waterC != null) water.set(row['date']!, waterC);
    return { date: row['date']!, airC: airC ?? null, ...(dischargeM3s != null && { dischargeM3s }) };
  });
  const heldOutFrom = rows.find((row) => row['split'] === 'cv')!['date']!;
  return { ...rest, weather, water, heldOutFrom };
}

/** Lowland Mentue (held out from 2010) and dammed, snow- and glacier-fed Rhone at Sion (from 2005). */
export function fixtureRivers(): readonly [ObservedRiver, ObservedRiver] {
  return [
    river('river_mentue.csv.gz', { name: 'Mentue', kind: 'lowland', ownBase: 'lowland' }),
    river('river_rhone_sion.csv.gz', { name: 'Rhone at Sion', kind: 'snow-fed', ownBase: 'alpine' }),
  ];
}
