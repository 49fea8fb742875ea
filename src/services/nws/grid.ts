import { z } from 'zod';
import { ThawlineError } from '../../units/index.ts';
import type { Observation, Variable } from '../../record/index.ts';
import { HOUR_MS } from '../../units/time/index.ts';
import { ATTRIBUTIONS } from '../attributions.ts';
import { isAhead } from '../honest.ts';
import { partOf, unnoted, type Note } from '../note.ts';
import { check, finite, instantMs, looseNumber } from '../parse.ts';
import { toSi } from '../units.ts';
import { expand, interval, prorate, type Run } from './runs.ts';

const NAME = ATTRIBUTIONS.nws.name;
/** Offices renew their grid several times a day; older ones have been served for days with status 200 (common practice, no source). */
const STALE_AFTER_MS = 12 * HOUR_MS;

const LAYERS: Readonly<Record<string, Variable>> = {
  temperature: 'air_temp',
  dewpoint: 'dew_point',
  relativeHumidity: 'humidity',
  quantitativePrecipitation: 'rain',
  windSpeed: 'wind_speed',
  windGust: 'wind_gust',
  windDirection: 'wind_dir',
  skyCover: 'cloud',
  probabilityOfThunder: 'thunder',
};

const layerSchema = z.object({
  uom: z.string().nullish(),
  values: z.array(z.object({ validTime: z.string(), value: looseNumber })),
});
const gridSchema = z.object({ properties: z.object({ updateTime: z.string() }).catchall(z.unknown()) });

/**
 * Map a raw forecast grid: past hours clipped, merged hours expanded, rain totals shared out over their hours.
 *
 * @param station  grid cell, `LZK/83,73`
 * A layer that is damaged or in an unknown unit costs nothing but itself.
 *
 * @param note  told of each layer that was refused
 * @throws ThawlineError when the grid is stale, has no issue time, or holds no layer that can be used
 */
export function mapGrid(
  body: unknown,
  lake: string,
  station: string,
  nowMs: number,
  note: Note = unnoted,
): Observation[] {
  const { properties } = check(gridSchema, body, NAME);
  const issuedMs = instantMs(properties.updateTime);
  if (issuedMs === null || isAhead(issuedMs, nowMs)) {
    throw new ThawlineError(
      'service',
      `${NAME} sent a forecast without a usable issue time; it was not used.`,
    );
  }
  if (nowMs - issuedMs > STALE_AFTER_MS) {
    const hours = Math.round((nowMs - issuedMs) / HOUR_MS);
    throw new ThawlineError(
      'service',
      `${NAME} still serves a forecast issued ${hours} h ago; it was not used.`,
      {
        retryable: true,
      },
    );
  }
  const refused: string[] = [];
  const found = Object.entries(LAYERS).flatMap(([name, variable]) =>
    partOf(
      () => mapLayer(properties[name], name, variable, { lake, station, issuedMs }, nowMs),
      [],
      (problem) => refused.push(problem),
    ),
  );
  if (found.length === 0) {
    throw new ThawlineError(
      'service',
      refused[0] ?? `${NAME} sent a forecast without a single coming hour.`,
      {
        retryable: refused.length === 0,
      },
    );
  }
  for (const problem of refused) note(problem);
  return found;
}

function mapLayer(
  body: unknown,
  name: string,
  variable: Variable,
  grid: Pick<Observation, 'lake' | 'station' | 'issuedMs'>,
  nowMs: number,
): Observation[] {
  if (body === undefined || body === null) return [];
  const layer = check(layerSchema, body, `${NAME} (${name})`);
  const runs = layer.values.flatMap(({ validTime, value }): Run[] => {
    const amount = finite(value);
    return amount === null ? [] : [{ ...interval(validTime), value: amount }];
  });
  // Empty layers carry no unit, so the unit is asked for only when there is something to convert.
  if (runs.length === 0) return [];
  const convert = toSi(variable, layer.uom, NAME);
  const rain = variable === 'rain';
  return (rain ? prorate(runs, nowMs) : expand(runs, nowMs)).map(([atMs, value]) => ({
    ...grid,
    variable,
    source: 'nws',
    kind: 'forecast',
    atMs,
    periodS: rain ? HOUR_MS / 1000 : 0,
    value: convert(value),
  }));
}
