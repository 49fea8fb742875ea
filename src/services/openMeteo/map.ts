import { z } from 'zod';
import { fieldOf, itemAt, ThawlineError } from '../../units/index.ts';
import type { Observation, Variable } from '../../record/index.ts';
import { HOUR_MS } from '../../units/time/index.ts';
import { ATTRIBUTIONS } from '../attributions.ts';
import { clean } from '../http/errors.ts';
import { partOf, unnoted, type Note } from '../note.ts';
import { check, finite, looseNumbers, plausible } from '../parse.ts';
import { toSi } from '../units.ts';

const SOURCE = 'open-meteo';
const NAME = ATTRIBUTIONS[SOURCE].name;
const HOUR_S = 3600;
/** Longest `past_days` the forecast service takes. */
const MAX_PAST_DAYS = 92;
const FORECAST_DAYS = 7;

/** Our variable, and the period its value covers before the time stamp: rain is a sum, gust a maximum, shortwave a mean. */
const COLUMNS: Readonly<Record<string, readonly [Variable, number]>> = {
  temperature_2m: ['air_temp', 0],
  relative_humidity_2m: ['humidity', 0],
  dew_point_2m: ['dew_point', 0],
  precipitation: ['rain', HOUR_S],
  wind_speed_10m: ['wind_speed', 0],
  wind_gusts_10m: ['wind_gust', HOUR_S],
  wind_direction_10m: ['wind_dir', 0],
  cloud_cover: ['cloud', 0],
  pressure_msl: ['pressure', 0],
  shortwave_radiation: ['shortwave', HOUR_S],
  thunderstorm_probability: ['thunder', HOUR_S],
  weather_code: ['weather_code', 0],
  cape: ['cape', 0],
};
/** What its weather brings to the record. */
export const VARIABLES_GIVEN: readonly Variable[] = Object.values(COLUMNS).map(([variable]) => variable);
/** Only some models know these, and of past hours nobody asks for them. */
const AHEAD_ONLY: readonly string[] = ['thunderstorm_probability', 'weather_code', 'cape'];
/** Columns that every model and the archive know. */
const PLAIN_COLUMNS = Object.keys(COLUMNS).filter((name) => !AHEAD_ONLY.includes(name));

const placeSchema = z.object({
  latitude: z.number(),
  longitude: z.number(),
  utc_offset_seconds: z.number(),
  hourly_units: z.record(z.string(), z.string()),
  hourly: z.object({ time: z.array(z.union([z.number(), z.string()])) }).catchall(looseNumbers.nullish()),
});
const bodySchema = z.union([placeSchema.transform((one) => [one]), z.array(placeSchema)]);
type Place = z.infer<typeof placeSchema>;
const errorSchema = z.object({ error: z.literal(true), reason: z.string().optional() });

interface Point {
  readonly id: string;
  readonly latDeg: number;
  readonly lonDeg: number;
}

/**
 * One request for several points. Unix times and no zone: days are built later, in the lake's own zone.
 *
 * @param plain  leave out the columns that only some models know
 */
export function forecastUrl(base: string, points: readonly Point[], pastDays: number, plain = false): string {
  // The first hours of a day belong to rain that fell the day before, hence one day more than asked.
  const past = Math.min(MAX_PAST_DAYS, Math.max(0, Math.ceil(pastDays)) + 1);
  const columns = plain ? PLAIN_COLUMNS : Object.keys(COLUMNS);
  return `${base}/v1/forecast?${query(points, columns)}&past_days=${past}&forecast_days=${FORECAST_DAYS}`;
}

/** The archive between two calendar dates (`YYYY-MM-DD`, both included). */
export function archiveUrl(base: string, point: Point, fromDate: string, toDate: string): string {
  return `${base}/v1/archive?${query([point], PLAIN_COLUMNS)}&start_date=${fromDate}&end_date=${toDate}`;
}

function query(points: readonly Point[], columns: readonly string[]): string {
  const list = (pick: (point: Point) => number): string => points.map((p) => pick(p).toFixed(4)).join(',');
  return `latitude=${list((p) => p.latDeg)}&longitude=${list((p) => p.lonDeg)}&hourly=${columns.join(',')}&timeformat=unixtime&wind_speed_unit=ms`;
}

/**
 * Map a reply to one list of observations per point, in the order asked.
 *
 * Past hours are a model's and are called `model`, never observed; later ones are forecasts. The service states no
 * issue time, so the hour of asking stands for it.
 *
 * @param nowMs  the instant of asking, epoch ms
 * @param note  told of each column that was refused while the rest was used, with the id of its point
 * @throws ThawlineError for an error body, an unknown shape, points that are not the ones asked for, or no value at all
 */
export function mapOpenMeteo(
  body: unknown,
  points: readonly Point[],
  nowMs: number,
  note: (problem: string, id: string) => void = unnoted,
): Observation[][] {
  const failure = errorSchema.safeParse(body);
  if (failure.success) {
    const reason = clean(failure.data.reason ?? 'no reason given');
    throw new ThawlineError('service', `${NAME} refused the request: ${reason}.`, {
      retryable: /limit|overload|concurrent/i.test(reason),
    });
  }
  const places = check(bodySchema, body, NAME);
  if (places.length !== points.length) {
    throw new ThawlineError(
      'service',
      `${NAME} answered for ${places.length} of ${points.length} places; nothing was used.`,
    );
  }
  return places.map((place, n) => {
    const point = itemAt(points, n);
    return mapPlace(place, point, nowMs, (problem) => note(problem, point.id));
  });
}

/** Between two longitudes the nearer way round, degrees. */
const apartDeg = (a: number, b: number): number => Math.abs(((((a - b + 180) % 360) + 360) % 360) - 180);

function mapPlace(place: Place, point: Point, nowMs: number, note: Note): Observation[] {
  // Grid cells are a few km wide; half a degree away is another place.
  if (Math.abs(place.latitude - point.latDeg) > 0.5 || apartDeg(place.longitude, point.lonDeg) > 0.5) {
    throw new ThawlineError(
      'service',
      `${NAME} answered for another place than the one asked for; nothing was used.`,
    );
  }
  const times = place.hourly.time.map((t) => timeMs(t, place.utc_offset_seconds));
  if (times.some((t, i) => i > 0 && t <= itemAt(times, i - 1))) {
    throw new ThawlineError('service', `${NAME} sent hours out of order; nothing was used.`);
  }
  const refused: string[] = [];
  const found = Object.keys(COLUMNS).flatMap((column) =>
    partOf(
      () => mapColumn(place, times, column, point, nowMs),
      [],
      (problem) => refused.push(problem),
    ),
  );
  if (found.length === 0) {
    throw new ThawlineError('service', refused[0] ?? `${NAME} answered without a single value.`, {
      retryable: refused.length === 0,
    });
  }
  for (const problem of refused) note(problem);
  return found;
}

function mapColumn(
  place: Place,
  times: readonly number[],
  column: string,
  point: Point,
  nowMs: number,
): Observation[] {
  const [variable, periodS] = fieldOf(COLUMNS, column);
  const values = place.hourly[column];
  if (values === undefined || values === null) return [];
  if (values.length !== times.length) {
    throw new ThawlineError(
      'service',
      `${NAME} sent ${values.length} values of ${column} for ${times.length} hours; they were not used.`,
    );
  }
  // A variable the model does not have comes as unit "undefined" with nothing but nulls.
  const numbers = values.map((raw) =>
    typeof raw === 'number' || typeof raw === 'string' ? finite(raw) : null,
  );
  if (numbers.every((value) => value === null)) return [];
  const convert = toSi(variable, place.hourly_units[column], NAME);
  // The service states no issue time, so the hour of asking stands for it.
  const issuedMs = Math.floor(nowMs / HOUR_MS) * HOUR_MS;
  return times.flatMap((atMs, i): Observation[] => {
    const value = itemAt(numbers, i);
    if (value === null) return [];
    const future = atMs > nowMs;
    if (!future && column !== 'thunderstorm_probability' && AHEAD_ONLY.includes(column)) return [];
    return [
      {
        lake: point.id,
        variable,
        source: SOURCE,
        station: '',
        kind: future ? 'forecast' : 'model',
        atMs,
        periodS,
        value: convert(value),
        issuedMs: future ? issuedMs : null,
      },
    ];
  });
}

/** Unix seconds are UTC. Local texts carry one fixed offset on every row, also across a change of the clocks. */
function timeMs(time: number | string, offsetS: number): number {
  const ms =
    typeof time === 'number'
      ? time * 1000
      : Date.parse(`${time}${time.length === 10 ? 'T00:00' : ''}Z`) - offsetS * 1000;
  if (!plausible(ms))
    throw new ThawlineError('service', `${NAME} sent a time we cannot read; nothing was used.`);
  return ms;
}

export type { Point };
