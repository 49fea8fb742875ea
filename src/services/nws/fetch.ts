import { ThawlineError } from '../../units/index.ts';
import type { LakeConfig } from '../../config/index.ts';
import type { Observation, OfficialAlert } from '../../record/index.ts';
import { DAY_MS } from '../../units/time/index.ts';
import { ATTRIBUTIONS } from '../attributions.ts';
import { baseUrl } from '../bases.ts';
import type { RefreshDeps } from '../deps.ts';
import { statusOf } from '../http/errors.ts';
import type { HttpClient } from '../http/types.ts';
import type { Note } from '../note.ts';
import { isoSeconds, parseJson } from '../parse.ts';
import { mapAlerts } from './alerts.ts';
import { mapGrid } from './grid.ts';
import { mapStation, mergeStations, tellsPresent } from './observations.ts';
import { forgetPlace, placeOf, pointText } from './places.ts';

const NAME = ATTRIBUTIONS.nws.name;
/** Most reports a station's query may return. */
const LIMIT = 500;

/** The forecast of the lake's cell; a cell that is no longer known is looked up afresh once. */
export async function fetchGrid(
  client: HttpClient,
  lake: LakeConfig,
  deps: RefreshDeps,
  note: Note,
): Promise<Observation[]> {
  const base = baseUrl(deps.services, 'nws');
  const ask = async (cell: string): Promise<Observation[]> => {
    const reply = await client.get({
      url: `${base}/gridpoints/${cell}`,
      service: NAME,
      conditionalFor: lake.id,
    });
    return reply.notModified ? [] : mapGrid(parseJson(reply.text, NAME), lake.id, cell, deps.nowMs, note);
  };
  const { place, cached } = await placeOf(client, base, lake);
  try {
    return await ask(place.cell);
  } catch (error) {
    if (!cached || statusOf(error) !== 404) throw error;
    forgetPlace(client, lake);
    return ask((await placeOf(client, base, lake)).place.cell);
  }
}

/**
 * Reports of the last day from the stations nearest to the lake, merged. Further stations are asked only while the
 * nearer ones do not tell the present weather.
 */
export async function fetchStations(
  client: HttpClient,
  lake: LakeConfig,
  deps: RefreshDeps,
  note: Note,
): Promise<Observation[]> {
  const base = baseUrl(deps.services, 'nws');
  const { place } = await placeOf(client, base, lake);
  const start = isoSeconds(deps.nowMs - DAY_MS);
  const reports: Observation[][] = [];
  let failure: ThawlineError | null = null;
  for (const station of place.stations) {
    try {
      const url = `${base}/stations/${station}/observations?start=${start}&limit=${LIMIT}`;
      const reply = await client.get({ url, service: NAME });
      reports.push(mapStation(parseJson(reply.text, NAME), lake.id, station, deps.nowMs, note));
    } catch (error) {
      if (!(error instanceof ThawlineError)) throw error;
      failure = error;
    }
    if (tellsPresent(reports.flat(), deps.nowMs)) break;
  }
  const merged = mergeStations(reports);
  if (merged.length === 0) {
    throw (
      failure ??
      new ThawlineError('service', `${NAME}: no station near the lake reported in the last day.`, {
        retryable: true,
      })
    );
  }
  return merged;
}

/** Alerts for the lake's point. They are never asked for conditionally: "unchanged" must not look like "none". */
export async function fetchAlerts(
  client: HttpClient,
  lake: LakeConfig,
  deps: RefreshDeps,
  note: Note,
): Promise<OfficialAlert[]> {
  const url = `${baseUrl(deps.services, 'nws')}/alerts/active?point=${pointText(lake)}`;
  const reply = await client.get({ url, service: NAME });
  return mapAlerts(parseJson(reply.text, NAME), lake.id, deps.nowMs, note);
}
