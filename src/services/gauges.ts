import { ThawlineError } from '../units/index.ts';
import type { GaugeConfig } from '../config/types.ts';
import { noteProblem, retrieve } from './basket.ts';
import { ATTRIBUTIONS, type SourceId } from './attributions.ts';
import { baseUrl } from './bases.ts';
import { fetchEccc } from './canada.ts';
import { mapLogger, type LoggerResult } from './csv/logger.ts';
import { fetchCwms } from './cwms.ts';
import type { RefreshDeps } from './deps.ts';
import { fetchEa } from './environmentAgency.ts';
import type { HttpClient } from './http/types.ts';
import { mapFloodStatus, mapStageflow } from './nwps.ts';
import { parseJson } from './parse.ts';
import { fetchUsgs } from './usgs/fetch.ts';
import type { Observation } from '../record/types.ts';
import type { Pair } from './weather.ts';
import { DAY_MS } from '../units/calendar.ts';

/** USGS gauges of all lakes together. */
export async function refreshUsgs(pairs: readonly Pair[], deps: RefreshDeps): Promise<void> {
  const wanted = pairs.flatMap(({ lake }) =>
    lake.gauges.filter((g) => g.service === 'usgs').map((gauge) => ({ lake: lake.id, gauge })),
  );
  if (wanted.length === 0) return;
  const baskets = new Map(pairs.map(({ basket }) => [basket.lake, basket]));
  const involved = [...baskets.values()].filter((basket) => wanted.some((w) => w.lake === basket.lake));
  await retrieve('usgs', involved, deps, async (client) => {
    for (const result of await fetchUsgs(client, wanted, deps)) {
      const basket = baskets.get(result.wanted.lake);
      if (basket === undefined) continue;
      for (const observation of result.observations) basket.observations.push(observation);
      if (result.problem !== '') noteProblem('usgs', basket, deps, result.problem);
    }
  });
}

type Fetch = (
  client: HttpClient,
  gauge: GaugeConfig,
  lake: string,
  deps: RefreshDeps,
) => Promise<Observation[]>;

const FETCH: Readonly<Partial<Record<GaugeConfig['service'], Fetch>>> = {
  cwms: fetchCwms,
  ea: fetchEa,
  eccc: fetchEccc,
  nwps: fetchStageflow,
};

/** The gauges of services that answer for one station at a time. */
export async function refreshGauges({ lake, basket }: Pair, deps: RefreshDeps): Promise<void> {
  for (const gauge of lake.gauges) {
    const source: SourceId = gauge.service;
    const fetch = FETCH[gauge.service];
    if (gauge.service === 'csv') {
      await retrieve(source, [basket], deps, async () => {
        const result = await fetchLogger(gauge, lake.id, deps);
        for (const observation of result.observations) basket.observations.push(observation);
        if (result.problem !== '') noteProblem(source, basket, deps, result.problem);
      });
    } else if (fetch !== undefined) {
      await retrieve(source, [basket], deps, async (client) => {
        const found = await fetch(client, gauge, lake.id, deps);
        if (found.length === 0) {
          throw new ThawlineError(
            'service',
            `${ATTRIBUTIONS[source].name} ${gauge.station} ${gauge.variable}: no values in the last ${deps.pastDays} days.`,
          );
        }
        for (const observation of found) basket.observations.push(observation);
      });
    }
  }
  if (lake.floodGauge !== undefined) {
    const id = lake.floodGauge;
    await retrieve('nwps', [basket], deps, async (client) => {
      const url = `${baseUrl(deps.services, 'nwps')}/nwps/v1/gauges/${encodeURIComponent(id)}`;
      const reply = await client.get({ url, service: ATTRIBUTIONS.nwps.name });
      basket.floods.push(
        mapFloodStatus(parseJson(reply.text, ATTRIBUTIONS.nwps.name), lake.id, id, deps.nowMs),
      );
    });
  }
}

async function fetchStageflow(
  client: HttpClient,
  gauge: GaugeConfig,
  lake: string,
  deps: RefreshDeps,
): Promise<Observation[]> {
  const url = `${baseUrl(deps.services, 'nwps')}/nwps/v1/gauges/${encodeURIComponent(gauge.station)}/stageflow`;
  const reply = await client.get({ url, service: ATTRIBUTIONS.nwps.name });
  return mapStageflow(parseJson(reply.text, ATTRIBUTIONS.nwps.name), gauge, lake);
}

/** @throws ThawlineError when the file of a CSV gauge cannot be read */
export async function readLogger(gauge: GaugeConfig, deps: RefreshDeps): Promise<string> {
  const path = gauge.csv?.path ?? '';
  try {
    return (await deps.readFile?.(path)) ?? '';
  } catch (cause) {
    throw new ThawlineError('service', `The logger file ${path} could not be read.`, { cause });
  }
}

async function fetchLogger(gauge: GaugeConfig, lake: string, deps: RefreshDeps): Promise<LoggerResult> {
  const text = await readLogger(gauge, deps);
  return mapLogger(text, gauge, lake, deps.nowMs - Math.max(1, deps.pastDays) * DAY_MS, deps.nowMs);
}
