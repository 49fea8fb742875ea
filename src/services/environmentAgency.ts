import { z } from 'zod';
import { ThawlineError } from '../units/index.ts';
import type { GaugeConfig, GaugeVariable, LakeConfig } from '../config/index.ts';
import type { Observation } from '../record/index.ts';
import { DAY_MS } from '../units/time/index.ts';
import { ATTRIBUTIONS } from './attributions.ts';
import { baseUrl } from './bases.ts';
import type { RefreshDeps } from './deps.ts';
import type { Behaviour } from './service.ts';
import { stationwise } from './stationwise.ts';
import type { HttpClient } from './http/types.ts';
import { check, finite, instantMs, isoSeconds, oneOrMany, parseJson } from './parse.ts';
import { toSi } from './units.ts';

const NAME = ATTRIBUTIONS.ea.name;
const LIMIT = 10_000;

const measureSchema = z.object({
  notation: z.string(),
  parameter: z.string(),
  qualifier: z.string().nullish(),
  unitName: z.string(),
  period: z.number().nullish(),
});
export type EaMeasure = z.infer<typeof measureSchema>;

const stationSchema = z.object({ items: z.object({ measures: oneOrMany(measureSchema).nullish() }) });
const readingSchema = z.object({ dateTime: z.string(), value: z.unknown() });
const readingsSchema = z.object({ items: oneOrMany(readingSchema) });

const PARAMETER: Partial<Record<GaugeVariable, string>> = {
  level: 'level',
  discharge: 'flow',
  inflow: 'flow',
  release: 'flow',
  rain: 'rainfall',
  water_temp: 'temperature',
};

/** What a station measures. */
export function measuresOf(body: unknown): EaMeasure[] {
  return check(stationSchema, body, NAME).items.measures ?? [];
}

/** The configured measure; else the only one of the variable, the stage before the downstream stage. */
export function chooseMeasure(measures: readonly EaMeasure[], gauge: GaugeConfig): EaMeasure {
  const wanted = measures.filter((m) =>
    gauge.parameter === undefined
      ? m.parameter === PARAMETER[gauge.variable]
      : m.notation === gauge.parameter,
  );
  const [only, ...more] = wanted.length > 1 ? wanted.filter((m) => m.qualifier === 'Stage') : wanted;
  if (only === undefined || more.length > 0) {
    const names = measures.map((m) => m.notation).join(', ');
    throw new ThawlineError(
      'service',
      `${NAME} station ${gauge.station} has no single measure of ${gauge.variable}; name one as "parameter" in the configuration: ${names.slice(0, 300)}.`,
    );
  }
  return only;
}

/** Readings of one measure. A reading without a stated zone is not used. */
export function mapReadings(
  body: unknown,
  measure: EaMeasure,
  gauge: GaugeConfig,
  lake: string,
): Observation[] {
  const { items } = check(readingsSchema, body, NAME);
  if (items.length >= LIMIT) {
    throw new ThawlineError(
      'service',
      `${NAME} sent its most readings at once, so some may be missing; nothing was used.`,
    );
  }
  const rows = new Map<number, number>();
  for (const { dateTime, value: raw } of items) {
    const atMs = instantMs(dateTime);
    const value = typeof raw === 'number' || typeof raw === 'string' ? finite(raw) : null;
    if (atMs !== null && value !== null) rows.set(atMs, value);
  }
  if (rows.size === 0) return [];
  const convert = toSi(gauge.variable, measure.unitName, NAME);
  const periodS = gauge.variable === 'rain' ? (measure.period ?? null) : 0;
  if (periodS === null)
    throw new ThawlineError('service', `${NAME} does not state the period of its rain totals.`);
  const datum = gauge.datum ?? (/^mA[SO]D$/.test(measure.unitName) ? measure.unitName.slice(1) : undefined);
  return [...rows]
    .sort((a, b) => a[0] - b[0])
    .map(([atMs, value]) => ({
      lake,
      variable: gauge.variable,
      source: 'ea',
      station: `${gauge.station}/${measure.notation}`,
      kind: 'observed',
      atMs,
      periodS,
      value: convert(value),
      issuedMs: null,
      provisional: true,
      ...(datum === undefined || gauge.variable !== 'level' ? {} : { datum }),
    }));
}

async function fetchEa(
  client: HttpClient,
  gauge: GaugeConfig,
  lake: LakeConfig,
  deps: RefreshDeps,
): Promise<Observation[]> {
  const base = `${baseUrl(deps.services, 'ea')}/flood-monitoring/id`;
  const ask = async (path: string): Promise<unknown> =>
    parseJson((await client.get({ url: `${base}${path}`, service: NAME })).text, NAME);
  const measure = chooseMeasure(
    measuresOf(await ask(`/stations/${encodeURIComponent(gauge.station)}`)),
    gauge,
  );
  const since = isoSeconds(deps.nowMs - Math.max(1, deps.pastDays) * DAY_MS);
  const readings = await ask(
    `/measures/${encodeURIComponent(measure.notation)}/readings?since=${since}&_sorted&_limit=${LIMIT}`,
  );
  return mapReadings(readings, measure, gauge, lake.id);
}

export const ea: Behaviour = {
  id: 'ea',
  variables: ['level', 'discharge', 'inflow', 'release', 'water_temp', 'rain'],
  fetch: stationwise('ea', fetchEa),
};
