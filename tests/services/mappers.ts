import type { Observation } from '../../src/record/types.ts';
import { mapEccc } from '../../src/services/canada.ts';
import { mapCwms, parseCwms } from '../../src/services/cwms.ts';
import { chooseMeasure, mapReadings, measuresOf } from '../../src/services/environmentAgency.ts';
import { mapFloodStatus, mapStageflow } from '../../src/services/nwps.ts';
import { mapAlerts } from '../../src/services/nws/alerts.ts';
import { mapGrid } from '../../src/services/nws/grid.ts';
import { mapStation } from '../../src/services/nws/observations.ts';
import { cellOf, stationsOf } from '../../src/services/nws/places.ts';
import { mapOpenMeteo } from '../../src/services/openMeteo/map.ts';
import { rowsOf, seriesOf } from './usgsItems.ts';
import { mapSeries } from '../../src/services/usgs/map.ts';
import { bySeries } from '../../src/services/usgs/series.ts';
import { gauge } from './support.ts';

const FLOW = {
  id: 'x',
  service: 'usgs',
  station: 'USGS-02196000',
  variable: 'discharge',
  parameter: '00060',
} as const;

/** Place and time of a body, so that a recorded reply meets a lake it could belong to. */
const placeIn = (body: unknown) => {
  const bag = (Array.isArray(body) ? body[0] : body) as { latitude?: unknown; longitude?: unknown } | null;
  const number = (value: unknown): number => (typeof value === 'number' ? value : 0);
  return { id: 'x', latDeg: number(bag?.latitude), lonDeg: number(bag?.longitude) };
};
const issueOf = (body: unknown): number => {
  const at = Date.parse(
    (body as { properties?: { updateTime?: string } } | null)?.properties?.updateTime ?? '',
  );
  return Number.isFinite(at) ? at : 0;
};
const NOW = Date.UTC(2026, 10, 25);
const measure = { notation: 'm', parameter: 'flow', unitName: 'm3/s', period: 900 };

/** Each adapter's way from a parsed body to what the record takes. */
export const MAPPERS = {
  'usgs rows': (body: unknown) =>
    [...bySeries(rowsOf(body)).values()].flatMap((rows) =>
      mapSeries(rows, rows[0]?.parameter_code === '00065' ? gauge({ parameter: '00065' }) : gauge(FLOW), 'x'),
    ),
  'usgs series': (body: unknown) => (seriesOf(body), []),
  'open-meteo': (body: unknown) => mapOpenMeteo(body, [placeIn(body)], NOW).flat(),
  'nws grid': (body: unknown) => mapGrid(body, 'x', 'c', issueOf(body)),
  'nws station': (body: unknown) => mapStation(body, 'x', 'KDEM', NOW),
  'nws alerts': (body: unknown) => (mapAlerts(body, 'x', NOW), []),
  'nws point': (body: unknown) => (cellOf(body), []),
  'nws stations': (body: unknown) => (stationsOf(body), []),
  'nwps flood': (body: unknown) => (mapFloodStatus(body, 'x', 's', NOW), []),
  'nwps stage': (body: unknown) => mapStageflow(body, gauge({ service: 'nwps' }), 'x'),
  'cwms page': (body: unknown) => {
    const page = parseCwms(body);
    const flow = page.name.includes('Flow');
    return mapCwms(
      [{ ...page, total: null }],
      gauge({ service: 'cwms', variable: flow ? 'discharge' : 'level' }),
      'x',
    );
  },
  'ea station': (body: unknown) => (
    chooseMeasure(measuresOf(body), gauge({ service: 'ea', parameter: undefined } as never)),
    []
  ),
  'ea readings': (body: unknown) =>
    mapReadings(body, measure, gauge({ service: 'ea', variable: 'discharge' }), 'x'),
  eccc: (body: unknown) => mapEccc(body, gauge({ service: 'eccc', station: '05BB001' }), 'x'),
} satisfies Record<string, (body: unknown) => Observation[]>;
export type MapperName = keyof typeof MAPPERS;

/** Faults that no reply may produce: values or times that are no numbers, forecasts without issue, empty names. */
export function unsound(observations: readonly Observation[]): string[] {
  return observations.flatMap((o) => {
    const faults: string[] = [];
    if (!Number.isFinite(o.value)) faults.push(`${o.variable} ${o.value}`);
    if (!Number.isInteger(o.atMs)) faults.push(`at ${o.atMs}`);
    if (!Number.isFinite(o.periodS) || o.periodS < 0) faults.push(`period ${o.periodS}`);
    if (o.kind === 'forecast' && o.issuedMs === null) faults.push('forecast without issue');
    return faults;
  });
}
