import { z } from 'zod';
import { ThawlineError } from '../units/index.ts';
import type { FloodCategory, FloodStatus, Observation } from '../record/index.ts';
import type { GaugeConfig, LakeConfig } from '../config/index.ts';
import { DAY_MS } from '../units/time/index.ts';
import { ATTRIBUTIONS } from './attributions.ts';
import { baseUrl } from './bases.ts';
import { retrieve } from './basket.ts';
import type { RefreshDeps } from './deps.ts';
import { isAhead } from './honest.ts';
import type { HttpClient } from './http/types.ts';
import { partOf, unnoted, type Note } from './note.ts';
import { check, finite, instantMs, looseNumber, parseJson } from './parse.ts';
import type { Behaviour, Pair } from './service.ts';
import { stationwise } from './stationwise.ts';
import { toSi } from './units.ts';

const NAME = ATTRIBUTIONS.nwps.name;

const statusSchema = z.object({ floodCategory: z.string().nullish(), validTime: z.string().nullish() });
const gaugeSchema = z.object({
  status: z.object({ observed: statusSchema.nullish(), forecast: statusSchema.nullish() }),
  flood: z
    .object({
      stageUnits: z.string().nullish(),
      categories: z.record(z.string(), z.object({ stage: looseNumber }).nullish()).nullish(),
    })
    .nullish(),
  inService: z.object({ enabled: z.boolean().nullish() }).nullish(),
});

const CATEGORY: Readonly<Record<string, FloodCategory>> = {
  no_flooding: 'none',
  low_threshold: 'none',
  action: 'action',
  minor: 'minor',
  moderate: 'moderate',
  major: 'major',
};

/** The service writes "missing" as -999 or -9999. */
const present = (value: number | string | null | undefined): number | null => {
  const number = finite(value);
  return number === null || number === -999 || number === -9999 ? null : number;
};

/**
 * Flood category now and in the forecast. What is not current, out of service, undated or dated in the future is
 * `unknown`, never `none`.
 *
 * @param note  told when the thresholds were refused for their unit
 * @throws ThawlineError for an unknown shape
 */
export function mapFloodStatus(
  body: unknown,
  lake: string,
  station: string,
  nowMs: number,
  note: Note = unnoted,
): FloodStatus {
  const gauge = check(gaugeSchema, body, NAME);
  const off = gauge.inService?.enabled === false;
  const observedMs = instantMs(gauge.status.observed?.validTime);
  const forecastMs = instantMs(gauge.status.forecast?.validTime);
  const observedFresh = observedMs !== null && nowMs - observedMs < DAY_MS && !isAhead(observedMs, nowMs);
  // A forecast's own time is that of its crest; one that lies well behind us is an old forecast.
  const forecastFresh = forecastMs !== null && nowMs - forecastMs < DAY_MS;
  const category = (text: string | null | undefined, fresh: boolean): FloodCategory =>
    off || !fresh ? 'unknown' : (CATEGORY[text ?? ''] ?? 'unknown');
  return {
    lake,
    station,
    observed: category(gauge.status.observed?.floodCategory, observedFresh),
    forecast: category(gauge.status.forecast?.floodCategory, forecastFresh),
    atMs: observedMs === null || isAhead(observedMs, nowMs) ? nowMs : observedMs,
    thresholdsM: partOf(() => thresholds(gauge.flood), {}, note),
  };
}

function thresholds(flood: z.infer<typeof gaugeSchema>['flood']): FloodStatus['thresholdsM'] {
  const found: Partial<Record<'action' | 'minor' | 'moderate' | 'major', number>> = {};
  for (const name of ['action', 'minor', 'moderate', 'major'] as const) {
    const stage = present(flood?.categories?.[name]?.stage);
    if (stage !== null) found[name] = toSi('level', flood?.stageUnits, NAME)(stage);
  }
  return found;
}

const seriesSchema = z.object({
  issuedTime: z.string().nullish(),
  primaryName: z.string().nullish(),
  primaryUnits: z.string().nullish(),
  secondaryName: z.string().nullish(),
  secondaryUnits: z.string().nullish(),
  data: z.array(z.object({ validTime: z.string(), primary: looseNumber, secondary: looseNumber })).nullish(),
});
const stageflowSchema = z.object({ observed: seriesSchema.nullish(), forecast: seriesSchema.nullish() });
type Series = z.infer<typeof seriesSchema>;

/**
 * Stage or flow of one gauge, observed and forecast, sorted by time. Names and units that the forecast leaves out are
 * those of the observed series. A forecast that cannot be used costs nothing but itself.
 *
 * @param note  told why the forecast was refused
 * @throws ThawlineError for an unknown shape or unit of what was observed, or when neither column is the one asked for
 */
export function mapStageflow(
  body: unknown,
  gauge: GaugeConfig,
  lake: string,
  note: Note = unnoted,
): Observation[] {
  const { observed, forecast } = check(stageflowSchema, body, NAME);
  const shared: Series = { ...observed, data: [] };
  return [
    ...mapSeries(observed, shared, gauge, lake, false),
    ...partOf(() => mapSeries(forecast, shared, gauge, lake, true), [], note),
  ];
}

function mapSeries(
  series: Series | null | undefined,
  shared: Series,
  gauge: GaugeConfig,
  lake: string,
  coming: boolean,
): Observation[] {
  const rows = series?.data ?? [];
  if (series === null || series === undefined || rows.length === 0) return [];
  const wanted = gauge.variable === 'level' ? 'Stage' : 'Flow';
  const primary = (series.primaryName ?? shared.primaryName) === wanted;
  if (!primary && (series.secondaryName ?? shared.secondaryName) !== wanted) {
    throw new ThawlineError('service', `${NAME} gives no ${wanted.toLowerCase()} for ${gauge.station}.`);
  }
  const unit = primary
    ? (series.primaryUnits ?? shared.primaryUnits)
    : (series.secondaryUnits ?? shared.secondaryUnits);
  const issuedMs = coming ? instantMs(series.issuedTime) : null;
  if (coming && issuedMs === null) {
    throw new ThawlineError(
      'service',
      `${NAME} sent a forecast for ${gauge.station} without its issue time; it was not used.`,
    );
  }
  const points = new Map<number, number>();
  for (const row of rows) {
    const atMs = instantMs(row.validTime);
    const value = present(primary ? row.primary : row.secondary);
    if (atMs !== null && value !== null) points.set(atMs, value);
  }
  if (points.size === 0) return [];
  const convert = toSi(gauge.variable, unit, NAME);
  return [...points]
    .sort((a, b) => a[0] - b[0])
    .map(([atMs, value]) => ({
      lake,
      variable: gauge.variable,
      source: 'nwps',
      station: gauge.station,
      kind: coming ? 'forecast' : 'observed',
      atMs,
      periodS: 0,
      value: convert(value),
      issuedMs,
      ...(gauge.datum === undefined ? {} : { datum: gauge.datum }),
    }));
}

async function fetchStageflow(
  client: HttpClient,
  gauge: GaugeConfig,
  lake: LakeConfig,
  deps: RefreshDeps,
  note: Note,
): Promise<Observation[]> {
  const url = `${baseUrl(deps.services, 'nwps')}/nwps/v1/gauges/${encodeURIComponent(gauge.station)}/stageflow`;
  const reply = await client.get({ url, service: NAME });
  return mapStageflow(parseJson(reply.text, NAME), gauge, lake.id, note);
}

async function refreshFlood({ lake, basket }: Pair, deps: RefreshDeps): Promise<void> {
  const { floodGauge } = lake;
  if (floodGauge === undefined) return;
  await retrieve('nwps', [basket], deps, async (client, note) => {
    const url = `${baseUrl(deps.services, 'nwps')}/nwps/v1/gauges/${encodeURIComponent(floodGauge)}`;
    const reply = await client.get({ url, service: NAME });
    basket.floods.push(mapFloodStatus(parseJson(reply.text, NAME), lake.id, floodGauge, deps.nowMs, note));
  });
}

const fetchGauges = stationwise('nwps', fetchStageflow);

export const nwps: Behaviour = {
  id: 'nwps',
  variables: ['level', 'discharge', 'inflow', 'release'],
  fetch: async (pairs, deps) => {
    await Promise.all([fetchGauges(pairs, deps), ...pairs.map(async (pair) => refreshFlood(pair, deps))]);
  },
};
