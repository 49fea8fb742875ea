/** What no single field of the configuration can show: ids given twice, references that lead nowhere, halves of a pair. */
import { MOST_LAT } from './place.ts';
import { swapWords } from './problemWords.ts';
import type { z } from 'zod';
import { serviceRow, type GaugeService, type GaugeVariable } from '../vocabulary/index.ts';

type Context = Pick<z.RefinementCtx, 'addIssue'>;
type Path = readonly (string | number)[];

/**
 * Reports a problem at one place that has to do with another; the reader of the file turns the second into a line.
 *
 * @param also path of the other place
 */
function problem(context: Context, path: Path, message: string, also?: Path): void {
  context.addIssue({
    code: 'custom',
    path: [...path],
    message,
    ...(also === undefined ? {} : { params: { also } }),
  });
}

interface WrittenGauge {
  readonly service: GaugeService;
  readonly station: string;
  readonly variable: GaugeVariable;
  readonly parameter?: string | undefined;
  readonly office?: string | undefined;
  readonly csv?: object | undefined;
}

/** What the fields are for, said where one is missing. */
const NEED: Readonly<Record<'office' | 'parameter' | 'csv', string>> = {
  office: 'the office that keeps the series, for example office: LRN',
  parameter: 'the name or code of the series, in quotes',
  csv: 'the section csv: { path, timeColumn, valueColumn, unit, zone }',
};

/** A gauge has what its service cannot do without, and asks for something that the service measures. */
export function checkGauge(gauge: WrittenGauge, context: Context): void {
  const row = serviceRow(gauge.service);
  if (!row.gauges.includes(gauge.variable)) {
    problem(
      context,
      ['variable'],
      `${row.name} gives no ${gauge.variable}; expected one of ${row.gauges.join(', ')}, or another service`,
    );
  }
  const needs =
    gauge.service === 'usgs' && (gauge.variable === 'inflow' || gauge.variable === 'release')
      ? [...row.needs, 'parameter' as const]
      : row.needs;
  for (const need of needs) {
    if (gauge[need] !== undefined) continue;
    problem(
      context,
      [],
      `the ${gauge.variable} gauge ${gauge.station} of ${row.name} lacks ${need}: add ${NEED[need]}`,
    );
  }
  if (gauge.csv !== undefined && gauge.service !== 'csv')
    problem(context, ['csv'], `a csv section belongs to service: csv; this gauge is of ${row.name}`);
}

/** What ids are made of. */
export const ID = /^[a-z0-9][a-z0-9-]{0,40}$/;

interface WrittenWhole {
  readonly lakes: readonly {
    readonly id: string;
    readonly zone: string;
    readonly waterBody: string;
    readonly area: number;
    readonly position: { readonly lat: number; readonly lon: number };
    readonly pockets: readonly { readonly id: string }[];
  }[];
  readonly readers: readonly { readonly address: string; readonly lakes: readonly string[] }[];
}

/** Reports every value that stands a second time, with the line of the first. */
function twice(
  entries: readonly { readonly value: string; readonly path: Path }[],
  what: string,
  context: Context,
): void {
  const first = new Map<string, Path>();
  for (const { value, path } of entries) {
    const before = first.get(value);
    if (before === undefined) first.set(value, path);
    else problem(context, path, `two ${what} are called "${value}"; give one another name`, before);
  }
}

/** South of it lies no land of the west, degrees (Diego Ramirez islands, 56.5 S; from memory). */
const SOUTHERNMOST_LAT = -57;

/** Zones of the west whose longitudes are all below zero. */
const WEST = /^America\/(?!Adak$)/;

/** Smaller waters are ponds. */
const SMALLEST_LAKE_M2 = 10_000;

/** Ids are unique, readers ask for lakes that are there, and a lake of the west lies in the west. */
export function checkWhole(written: WrittenWhole, context: Context): void {
  const { lakes, readers } = written;
  twice(
    lakes.map(({ id }, n) => ({ value: id, path: ['lakes', n, 'id'] })),
    'lakes',
    context,
  );
  lakes.forEach(({ pockets, position, zone, waterBody, area }, lake) => {
    if (waterBody !== 'pond' && area < SMALLEST_LAKE_M2)
      problem(
        context,
        ['lakes', lake, 'area'],
        `found ${area.toFixed(0)} m2, which is out of range for a ${waterBody} (from ${SMALLEST_LAKE_M2} m2): check the number and its unit, or call it a pond`,
        ['lakes', lake, 'waterBody'],
      );
    twice(
      pockets.map(({ id }, n) => ({ value: id, path: ['lakes', lake, 'pockets', n, 'id'] })),
      'pockets of this lake',
      context,
    );
    if (WEST.test(zone) && position.lon > 0) {
      // A latitude of the west's longitudes, and a longitude of its latitudes: the two stand in each other's place.
      if (position.lat < SOUTHERNMOST_LAT && position.lon <= MOST_LAT) {
        const also = ['lakes', lake, 'zone'];
        // Beyond what a latitude may be it is told by the field itself.
        if (position.lat >= -MOST_LAT)
          problem(context, ['lakes', lake, 'position'], swapWords(position.lat, position.lon), also);
        return;
      }
      problem(
        context,
        ['lakes', lake, 'position', 'lon'],
        `found ${position.lon}, which lies east of Greenwich, with the zone ${zone}: west is negative, write -${position.lon}`,
        ['lakes', lake, 'zone'],
      );
    }
  });
  twice(
    readers.map(({ address }, n) => ({ value: address.toLowerCase(), path: ['readers', n, 'address'] })),
    'readers',
    context,
  );
  const known = new Set(lakes.map(({ id }) => id));
  // What is wrong with an id is told at the lake; a reader may well name it as it is to be.
  if (![...known].every((id) => ID.test(id))) return;
  readers.forEach((reader, n) => {
    reader.lakes.forEach((lake, m) => {
      if (known.has(lake)) return;
      problem(
        context,
        ['readers', n, 'lakes', m],
        `found "${lake}", which is not among the lakes (${[...known].join(', ')})`,
      );
    });
  });
}
