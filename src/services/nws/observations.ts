import { z } from 'zod';
import type { Observation, Variable } from '../../record/index.ts';
import { HOUR_MS } from '../../units/time/index.ts';
import { ATTRIBUTIONS } from '../attributions.ts';
import { isAhead } from '../honest.ts';
import { partOf, unnoted, type Note } from '../note.ts';
import { check, finite, instantMs, looseNumber } from '../parse.ts';
import { toSi } from '../units.ts';

const NAME = ATTRIBUTIONS.nws.name;

/** Pressure is the one reduced to sea level, so that stations at different heights can stand for each other. */
const FIELDS: Readonly<Record<string, readonly [Variable, number]>> = {
  temperature: ['air_temp', 0],
  dewpoint: ['dew_point', 0],
  relativeHumidity: ['humidity', 0],
  windSpeed: ['wind_speed', 0],
  windGust: ['wind_gust', 0],
  windDirection: ['wind_dir', 0],
  seaLevelPressure: ['pressure', 0],
  precipitationLastHour: ['rain', 3600],
};
/** Marks of the network's own checks that mean "do not use": failed, questioned, bad (from memory of its documentation). */
const REJECTED = new Set(['X', 'Q', 'B']);

const quantitySchema = z.object({
  value: looseNumber,
  unitCode: z.string().nullish(),
  qualityControl: z.string().nullish(),
});
const listSchema = z.object({
  features: z
    .array(z.object({ properties: z.object({ timestamp: z.string().nullish() }).catchall(z.unknown()) }))
    .nullish(),
});

/**
 * Every usable value of one station's reports. A null is a gap, also for rain: stations leave the field empty when it
 * is dry and when the gauge is out.
 *
 * @param note  told of each field that was refused for its shape or unit; the others are used
 * @throws ThawlineError for an unknown shape
 */
export function mapStation(
  body: unknown,
  lake: string,
  station: string,
  nowMs: number,
  note: Note = unnoted,
): Observation[] {
  const found: Observation[] = [];
  for (const { properties } of check(listSchema, body, NAME).features ?? []) {
    const atMs = instantMs(properties.timestamp);
    if (atMs === null || isAhead(atMs, nowMs)) continue;
    for (const [field, [variable, periodS]] of Object.entries(FIELDS)) {
      const value = partOf(() => valueOf(properties[field], field, variable), null, note);
      if (value === null) continue;
      found.push({
        lake,
        variable,
        source: 'nws',
        station,
        kind: 'observed',
        atMs,
        periodS,
        value,
        issuedMs: null,
      });
    }
  }
  return found;
}

function valueOf(body: unknown, field: string, variable: Variable): number | null {
  if (body === undefined || body === null) return null;
  const quantity = check(quantitySchema, body, `${NAME} (${field})`);
  const value = finite(quantity.value);
  if (value === null || REJECTED.has(quantity.qualityControl ?? '')) return null;
  return toSi(variable, quantity.unitCode, NAME)(value);
}

/**
 * One value per variable and clock hour: the nearest station that has one speaks, with its last report in that hour.
 *
 * @param stations  observations by station, nearest first
 */
export function mergeStations(stations: readonly (readonly Observation[])[]): Observation[] {
  const slots = new Map<string, Observation>();
  for (const observations of stations) {
    const own = new Map<string, Observation>();
    for (const observation of observations) {
      const slot = `${observation.variable}/${Math.floor(observation.atMs / HOUR_MS)}`;
      const other = own.get(slot);
      if (other === undefined || observation.atMs > other.atMs) own.set(slot, observation);
    }
    for (const [slot, observation] of own) if (!slots.has(slot)) slots.set(slot, observation);
  }
  return [...slots.values()].sort((a, b) =>
    a.variable < b.variable ? -1 : a.variable > b.variable ? 1 : a.atMs - b.atMs,
  );
}

/** Whether these observations tell the present weather, so that no further station need be asked. */
export function tellsPresent(observations: readonly Observation[], nowMs: number): boolean {
  const needed: Variable[] = ['air_temp', 'dew_point', 'wind_speed', 'pressure'];
  return needed.every((variable) =>
    observations.some((o) => o.variable === variable && o.atMs > nowMs - 2 * HOUR_MS),
  );
}
