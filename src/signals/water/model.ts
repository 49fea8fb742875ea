/** The water model that suits a lake, with what flows through it. */
import type { LakeConfig } from '../../config/index.ts';
import type { RecordView } from '../../record/index.ts';
import { median } from '../../science/index.ts';
import { nowcastLake, type WaterReading, type WeatherDay } from '../../water/lake/index.ts';
import { nowcastPool, nowcastRiver, type RiverKind, type RiverWeatherDay } from '../../water/river/index.ts';
import { mean } from '../figure.ts';
import { bestGauge } from '../gauge.ts';
import { byLocalDate } from './readings.ts';

/** The longest span whose change is told, and today. */
const HINDSIGHT_DAYS = 31;

export type WaterResult = ReturnType<typeof nowcastLake>;

/** Mean discharge of each local date that a gauge covers, m3/s: a dam that runs half the day has no usual hour. */
export function dailyDischarge(view: RecordView, lake: LakeConfig): ReadonlyMap<string, number> {
  const series =
    bestGauge(view, lake, 'release') ?? bestGauge(view, lake, 'discharge') ?? bestGauge(view, lake, 'inflow');
  if (series === null) return new Map();
  return new Map(
    [...byLocalDate(series, lake.zone)].flatMap(([date, rows]) => {
      const flow = mean(rows.map(({ value }) => value));
      return flow === null ? [] : [[date, flow] as const];
    }),
  );
}

/** The days of a river's model: of those whose discharge is known, with it. */
export const withDischarge = (
  days: readonly WeatherDay[],
  discharge: ReadonlyMap<string, number>,
): RiverWeatherDay[] =>
  days.map((day) => {
    const dischargeM3s = discharge.get(day.date);
    return { ...day, ...(dischargeM3s === undefined ? {} : { dischargeM3s }) };
  });

/** Discharge of a usual day, m3/s; null where none above 0 is known. */
export function usualOf(discharge: ReadonlyMap<string, number>): number | null {
  const usual = discharge.size === 0 ? 0 : median([...discharge.values()]);
  return usual > 0 ? usual : null;
}

/**
 * The model that suits the water: a lake's for a lake; the river's for a tailwater; for a run-of-river pool both, by
 * the time its water stays. Without a discharge gauge a pool is taken for a lake.
 *
 * @param firstForecastDate today counts as known, so that a reading of this morning moves this morning's estimate
 */
export function estimateWater(
  lake: LakeConfig,
  days: readonly WeatherDay[],
  readings: readonly WaterReading[],
  firstForecastDate: string,
  discharge: ReadonlyMap<string, number>,
): WaterResult {
  const site = { latDeg: lake.latDeg, meanDepthM: lake.meanDepthM, areaKm2: lake.areaKm2 };
  const asLake = (): WaterResult =>
    nowcastLake(site, days, readings, {
      firstForecastDate,
      readingLagDays: 0,
      hindsightDays: HINDSIGHT_DAYS,
    });
  const asRiver = (kind: RiverKind): WaterResult => {
    const flowing = withDischarge(days, discharge);
    const options = { firstForecastDate, latDeg: lake.latDeg, hindsightDays: HINDSIGHT_DAYS };
    return nowcastRiver(kind, flowing, readings, options);
  };
  if (lake.waterBody === 'tailwater') return asRiver(lake.riverKind ?? 'regulated');
  const usual = usualOf(discharge);
  if (lake.waterBody !== 'run-of-river' || usual === null) return asLake();
  const pool = asLake();
  const residenceDays = (lake.meanDepthM * lake.areaKm2 * 1e6) / (usual * 86_400);
  return { ...pool, days: nowcastPool(pool.days, asRiver(lake.riverKind ?? 'wide').days, residenceDays) };
}
