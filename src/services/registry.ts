/** The services, each one object: everything that lists services takes them from here. */
import type { GaugeConfig, LakeConfig } from '../config/index.ts';
import { SERVICE_IDS, serviceRow, type ServiceId } from '../vocabulary/index.ts';
import { BEHAVIOURS } from './behaviours.ts';
import type { Service } from './service.ts';

function whole(id: ServiceId): Service {
  const { name, attribution, url, licence, bases, owns } = serviceRow(id);
  const behaviour = BEHAVIOURS[id];
  return {
    ...behaviour,
    credit: { name, attribution, url, licence },
    bases,
    owns: ({ source, station }, gauge) => source === id && (gauge === undefined || owns(station, gauge)),
  };
}

/** In the order of the vocabulary. */
export const REGISTRY: readonly Service[] = SERVICE_IDS.map(whole);

/** Gauges of a lake whose past year of daily levels can be asked for; the others' band grows with the record. */
export function gaugesWithAYear(lake: LakeConfig): GaugeConfig[] {
  const keepsAYear = new Set<string>(REGISTRY.filter(({ year }) => year !== undefined).map(({ id }) => id));
  return lake.gauges.filter(({ variable, service }) => variable === 'level' && keepsAYear.has(service));
}
