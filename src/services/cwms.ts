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
import { dailyMeans, YEAR_DAYS } from './yearOfLevels.ts';
import type { HttpClient } from './http/types.ts';
import { check, finite, isoSeconds, looseNumber, parseJson, plausible } from './parse.ts';
import { spacingS } from './spacing.ts';
import { toSi } from './units.ts';

const NAME = ATTRIBUTIONS.cwms.name;
const PAGE_SIZE = 5000;
const MAX_PAGES = 100;
/** The Java lower limit of a float is how the database writes "no value". */
const NO_VALUE = -3.4e38;
/** Bits of the quality code: 4 missing, 8 questionable, 16 rejected (from memory of the database's documentation). */
const MISSING = 4;
const QUESTIONABLE = 8;
const REJECTED = 16;

const pageSchema = z.object({
  name: z.string(),
  units: z.string(),
  total: z.number().nullish(),
  'next-page': z.string().nullish(),
  values: z.array(z.tuple([z.number(), looseNumber, z.number().nullish()]).rest(z.unknown())),
  'vertical-datum-info': z
    .object({
      'native-datum': z.string().nullish(),
      unit: z.string().nullish(),
      offsets: z.array(z.object({ 'to-datum': z.string(), value: z.number() })).nullish(),
    })
    .nullish(),
});
export type CwmsPage = z.infer<typeof pageSchema>;

export function parseCwms(body: unknown): CwmsPage {
  return check(pageSchema, body, NAME);
}

async function fetchCwms(
  client: HttpClient,
  gauge: GaugeConfig,
  lake: LakeConfig,
  deps: RefreshDeps,
): Promise<Observation[]> {
  if (gauge.parameter === undefined || gauge.office === undefined) {
    throw new ThawlineError(
      'service',
      `The ${gauge.variable} gauge ${gauge.station} needs "office" and the whole series name as "parameter" in the configuration.`,
    );
  }
  const query = new URLSearchParams({
    name: gauge.parameter,
    office: gauge.office,
    begin: isoSeconds(deps.nowMs - Math.max(1, deps.pastDays) * DAY_MS),
    end: isoSeconds(deps.nowMs),
    unit: 'SI',
    'page-size': String(PAGE_SIZE),
  });
  const pages: CwmsPage[] = [];
  for (let token: string | null | undefined = ''; typeof token === 'string';) {
    if (token !== '') query.set('page', token);
    const reply = await client.get({
      url: `${baseUrl(deps.services, 'cwms')}/cwms-data/timeseries?${query.toString()}`,
      service: NAME,
      // Without the version the service answers in an older shape.
      headers: { accept: 'application/json;version=2' },
    });
    const page = parseCwms(parseJson(reply.text, NAME));
    pages.push(page);
    const next: string | null | undefined = page['next-page'];
    if (next === token || pages.length > MAX_PAGES) {
      throw new ThawlineError('service', `${NAME} linked its pages in a circle; nothing was used.`);
    }
    token = next === '' ? null : next;
  }
  return mapCwms(pages, gauge, lake.id);
}

/**
 * Pages of one series to observations in SI; missing and rejected values are gaps. A level is moved to the configured
 * datum when the service states the offset to it, otherwise it keeps the datum the service names.
 *
 * @throws ThawlineError when rows are missing, the unit is unknown or changes, or the spacing of rain cannot be told
 */
export function mapCwms(pages: readonly CwmsPage[], gauge: GaugeConfig, lake: string): Observation[] {
  const [first] = pages;
  if (first === undefined) return [];
  const count = pages.reduce((sum, page) => sum + page.values.length, 0);
  if (typeof first.total === 'number' && count < first.total) {
    throw new ThawlineError(
      'service',
      `${NAME} announced ${first.total} rows and sent ${count}; nothing was used.`,
      {
        retryable: true,
      },
    );
  }
  if (pages.some((page) => page.units !== first.units || page.name !== first.name)) {
    throw new ThawlineError(
      'service',
      `${NAME} changed the series or its unit between pages; nothing was used.`,
    );
  }
  const rows = new Map<number, { value: number; quality: number }>();
  for (const page of pages) {
    for (const [atMs, raw, code] of page.values) {
      const value = finite(raw);
      // No code: nothing is held against the value.
      const quality = code ?? 0;
      if (value === null || value <= NO_VALUE || (quality & (MISSING | REJECTED)) !== 0 || !plausible(atMs))
        continue;
      rows.set(atMs, { value, quality });
    }
  }
  if (rows.size === 0) return [];
  const sorted = [...rows].sort((a, b) => a[0] - b[0]);
  const convert = toSi(gauge.variable, first.units, NAME);
  const periodS = gauge.variable === 'rain' ? spacingS(sorted.map(([atMs]) => atMs)) : 0;
  if (periodS === null) return [];
  const { shiftM, datum } =
    gauge.variable === 'level' ? datumOf(first, gauge) : { shiftM: 0, datum: undefined };
  return sorted.map(([atMs, { value, quality }]) => ({
    lake,
    variable: gauge.variable,
    source: 'cwms',
    station: `${gauge.office ?? ''}/${first.name}`,
    kind: 'observed',
    atMs,
    periodS,
    value: convert(value) + shiftM,
    issuedMs: null,
    provisional: true,
    ...((quality & QUESTIONABLE) === 0 ? {} : { qualifiers: ['questionable'] }),
    ...(datum === undefined ? {} : { datum }),
  }));
}

function datumOf(page: CwmsPage, gauge: GaugeConfig): { shiftM: number; datum: string | undefined } {
  const plain = (name: string): string => name.toUpperCase().replace(/[^A-Z0-9]/g, '');
  const info = page['vertical-datum-info'];
  const native = info?.['native-datum'] ?? undefined;
  if (gauge.datum === undefined || native === undefined) return { shiftM: 0, datum: gauge.datum ?? native };
  if (plain(gauge.datum) === plain(native)) return { shiftM: 0, datum: native };
  const target = plain(gauge.datum);
  const offset = info?.offsets?.find((o) => plain(o['to-datum']) === target);
  if (offset === undefined) return { shiftM: 0, datum: native };
  return { shiftM: toSi('level', info?.unit, NAME)(offset.value), datum: gauge.datum };
}

export const cwms: Behaviour = {
  id: 'cwms',
  variables: ['level', 'discharge', 'inflow', 'release', 'water_temp', 'turbidity', 'rain'],
  fetch: stationwise('cwms', fetchCwms),
  year: async (lake, gauges, deps) => {
    const days: Observation[] = [];
    for (const gauge of gauges)
      days.push(...dailyMeans(await fetchCwms(deps.client, gauge, lake, { ...deps, pastDays: YEAR_DAYS })));
    return days;
  },
  past: async (lake, gauges, { fromMs, toMs }, deps) => {
    const observations: Observation[] = [];
    for (const gauge of gauges) {
      const span = { ...deps, nowMs: toMs, pastDays: (toMs - fromMs) / DAY_MS };
      observations.push(...(await fetchCwms(deps.client, gauge, lake, span)));
    }
    return { observations, problems: [] };
  },
};
