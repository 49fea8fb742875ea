import { z } from 'zod';
import { ThawlineError } from '../units/index.ts';
import type { GaugeConfig, LakeConfig } from '../config/index.ts';
import type { Observation } from '../record/index.ts';
import { DAY_MS } from '../units/time/index.ts';
import { ATTRIBUTIONS } from './attributions.ts';
import { baseUrl } from './bases.ts';
import type { RefreshDeps } from './deps.ts';
import type { Behaviour } from './service.ts';
import { stationwise } from './stationwise.ts';
import type { HttpClient } from './http/types.ts';
import { check, finite, instantMs, isoSeconds, looseNumber, parseJson } from './parse.ts';

const NAME = ATTRIBUTIONS.eccc.name;
/** The service keeps 30 days at 5 minutes, 8,640 rows. */
const LIMIT = 10_000;

const bodySchema = z.object({
  features: z.array(
    z.object({
      properties: z.object({
        STATION_NUMBER: z.string(),
        DATETIME: z.string(),
        LEVEL: looseNumber,
        DISCHARGE: looseNumber,
        LEVEL_SYMBOL_EN: z.string().nullish(),
        DISCHARGE_SYMBOL_EN: z.string().nullish(),
      }),
    }),
  ),
  numberMatched: z.number().nullish(),
});

/**
 * Real-time level (m) and discharge (m3/s), the units the service documents for these columns.
 *
 * @throws ThawlineError when rows are missing or belong to another station
 */
export function mapEccc(body: unknown, gauge: GaugeConfig, lake: string): Observation[] {
  const { features, numberMatched } = check(bodySchema, body, NAME);
  if (typeof numberMatched === 'number' && numberMatched > features.length) {
    throw new ThawlineError(
      'service',
      `${NAME} has ${numberMatched} rows and sent ${features.length}; nothing was used.`,
      {
        retryable: true,
      },
    );
  }
  const column = gauge.variable === 'level' ? 'LEVEL' : 'DISCHARGE';
  if (
    gauge.variable !== 'level' &&
    gauge.variable !== 'discharge' &&
    gauge.variable !== 'inflow' &&
    gauge.variable !== 'release'
  ) {
    throw new ThawlineError(
      'service',
      `${NAME} gives no ${gauge.variable}; take the gauge ${gauge.station} out of the configuration.`,
    );
  }
  const rows = new Map<number, Observation>();
  for (const { properties } of features) {
    if (properties.STATION_NUMBER !== gauge.station) {
      throw new ThawlineError(
        'service',
        `${NAME} answered for another station than ${gauge.station}; nothing was used.`,
      );
    }
    const atMs = instantMs(properties.DATETIME);
    const value = finite(properties[column]);
    if (atMs === null || value === null) continue;
    const symbol = properties[`${column}_SYMBOL_EN`];
    rows.set(atMs, {
      lake,
      variable: gauge.variable,
      source: 'eccc',
      station: gauge.station,
      kind: 'observed',
      atMs,
      periodS: 0,
      value,
      issuedMs: null,
      provisional: true,
      ...(symbol === null || symbol === undefined ? {} : { qualifiers: [symbol] }),
      ...(gauge.datum === undefined || column !== 'LEVEL' ? {} : { datum: gauge.datum }),
    });
  }
  return [...rows.values()].sort((a, b) => a.atMs - b.atMs);
}

async function fetchEccc(
  client: HttpClient,
  gauge: GaugeConfig,
  lake: LakeConfig,
  deps: RefreshDeps,
): Promise<Observation[]> {
  const from = isoSeconds(deps.nowMs - Math.max(1, deps.pastDays) * DAY_MS);
  const query = new URLSearchParams({
    f: 'json',
    STATION_NUMBER: gauge.station,
    datetime: `${from}/${isoSeconds(deps.nowMs)}`,
    sortby: '-DATETIME',
    limit: String(LIMIT),
  });
  const url = `${baseUrl(deps.services, 'eccc')}/collections/hydrometric-realtime/items?${query.toString()}`;
  return mapEccc(parseJson((await client.get({ url, service: NAME })).text, NAME), gauge, lake.id);
}

export const eccc: Behaviour = {
  id: 'eccc',
  variables: ['level', 'discharge', 'inflow', 'release'],
  fetch: stationwise('eccc', fetchEccc),
};
