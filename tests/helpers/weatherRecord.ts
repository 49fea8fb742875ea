/** Invented but physically plausible records for tests: every hour of a span, from functions of local time. */
import { DateTime } from 'luxon';
import type { LakeConfig } from '../../src/config/types.ts';
import type { Observation, RecordView, Variable } from '../../src/record/types.ts';

const HOUR_MS = 3_600_000;

export const testLake: LakeConfig = {
  id: 'tarn',
  name: 'Tarn Water',
  latDeg: 35.9,
  lonDeg: -86.4,
  zone: 'America/Chicago',
  waterBody: 'highland-reservoir',
  meanDepthM: 12,
  areaKm2: 25,
  bankDeg: 20,
  belowDam: false,
  species: 'mixed',
  weather: ['open-meteo'],
  alerts: 'none',
  gauges: [
    { service: 'usgs', station: 'USGS-1', variable: 'level', where: 'at the dam' },
    { service: 'usgs', station: 'USGS-2', variable: 'level', where: 'at the bridge' },
    { service: 'usgs', station: 'USGS-1', variable: 'water_temp', where: 'at the dam', depthM: 1 },
  ],
  pockets: [
    {
      id: 'draw',
      name: 'North Draw',
      landCover: 'pasture',
      areaM2: 6000,
      meanDepthM: 1.5,
      watershedKm2: 2.6,
      mouthWidthM: 24,
      channelLengthM: 2900,
      slope: 0.02,
    },
  ],
  points: [],
  issueAt: '05:15',
  graceMinutes: 180,
  eveningOutlook: false,
  demo: true,
};

export interface HourWeather {
  air: number;
  humidity: number;
  rain: number;
  wind: number;
  cloud: number;
  sun: number;
}

export interface RecordPlan {
  readonly asOf: string;
  readonly pastDays?: number;
  readonly aheadDays?: number;
  readonly zone?: string;
  /** Weather of an hour, by its local time. */
  readonly weather?: (local: DateTime) => Partial<HourWeather>;
  readonly extra?: readonly Observation[];
  /** Issue of the weather, hours before `asOf`. */
  readonly weatherAgeH?: number;
}

const CALM: HourWeather = { air: 8, humidity: 70, rain: 0, wind: 3, cloud: 40, sun: 100 };
const VARIABLES: readonly [keyof HourWeather, Variable, number][] = [
  ['air', 'air_temp', 0],
  ['humidity', 'humidity', 0],
  ['rain', 'rain', 3600],
  ['wind', 'wind_speed', 0],
  ['cloud', 'cloud', 0],
  ['sun', 'shortwave', 3600],
];

export function observation(
  variable: Variable,
  atMs: number,
  value: number,
  more: Partial<Observation> = {},
): Observation {
  return {
    lake: testLake.id,
    variable,
    source: 'usgs',
    station: 'USGS-1',
    kind: 'observed',
    atMs,
    periodS: 0,
    value,
    issuedMs: null,
    ...more,
  };
}

export function recordView(plan: RecordPlan): RecordView {
  const asOfMs = Date.parse(plan.asOf);
  const zone = plan.zone ?? testLake.zone;
  const issuedMs = Math.floor((asOfMs - (plan.weatherAgeH ?? 0) * HOUR_MS) / HOUR_MS) * HOUR_MS;
  const first = Math.floor(asOfMs / HOUR_MS) * HOUR_MS - (plan.pastDays ?? 60) * 24 * HOUR_MS;
  const last = issuedMs + (plan.aheadDays ?? 7) * 24 * HOUR_MS;
  const hours: { readonly atMs: number; readonly hour: HourWeather }[] = [];
  for (let atMs = first; atMs <= last; atMs += HOUR_MS)
    hours.push({ atMs, hour: { ...CALM, ...plan.weather?.(DateTime.fromMillis(atMs, { zone })) } });
  // Series after series, as a record has them.
  const observations = VARIABLES.flatMap(([key, variable, periodS]) =>
    hours.map(({ atMs, hour }) => {
      const forecast = atMs > issuedMs;
      return observation(variable, atMs, hour[key], {
        source: 'open-meteo',
        station: '',
        kind: forecast ? 'forecast' : 'model',
        periodS,
        issuedMs: forecast ? issuedMs : null,
      });
    }),
  );
  return {
    lake: testLake.id,
    asOfMs,
    observations: [...observations, ...(plan.extra ?? [])],
    readings: [],
    alerts: [],
    alertsCheckedMs: null,
    floods: [],
    retrievals: [],
  };
}

/** A gauge series, one value every `stepH` hours up to `lastMs`. */
export function gauge(
  variable: Variable,
  lastMs: number,
  days: number,
  value: (hoursBeforeLast: number) => number,
  more: Partial<Observation> = {},
): Observation[] {
  return Array.from({ length: days * 24 + 1 }, (_, back) =>
    observation(variable, lastMs - back * HOUR_MS, value(back), more),
  ).reverse();
}
