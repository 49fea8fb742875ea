import type { LakeConfig } from '../../config/index.ts';
import type { Observation } from '../../record/index.ts';
import { ThawlineError } from '../../units/index.ts';
import { baseUrl } from '../bases.ts';
import type { RefreshDeps } from '../deps.ts';
import { archiveUrl, mapOpenMeteo } from './map.ts';
import { parseJson } from '../parse.ts';
import { withoutWrongSeries } from '../wholeSeries.ts';

/**
 * Hourly weather of the past from the archive of Open-Meteo, for the spin-up of the lake model and for replay.
 *
 * @param fromDate  first calendar day, `YYYY-MM-DD`, UTC
 * @param toDate  last calendar day, `YYYY-MM-DD`, UTC
 * @returns observations of kind `model`; hours the archive does not have yet are absent
 * @throws ThawlineError when the archive cannot be read
 */
export async function fetchArchive(
  lake: LakeConfig,
  fromDate: string,
  toDate: string,
  deps: Pick<RefreshDeps, 'client' | 'services' | 'nowMs'>,
): Promise<Observation[]> {
  const reply = await deps.client.get({
    url: archiveUrl(baseUrl(deps.services, 'open-meteo-archive'), lake, fromDate, toDate),
    service: 'Open-Meteo archive',
  });
  const [mapped] = mapOpenMeteo(parseJson(reply.text, 'Open-Meteo archive'), [lake], deps.nowMs);
  // The archive reaches into today, but holds no forecasts worth keeping.
  const past = (mapped ?? []).filter((observation) => observation.kind === 'model');
  const refused: string[] = [];
  const kept = withoutWrongSeries(past, lake.latDeg, (problem) => refused.push(problem));
  // A year that lacks its air is none: it is asked for again.
  if (refused[0] !== undefined) throw new ThawlineError('service', refused[0]);
  return kept;
}
