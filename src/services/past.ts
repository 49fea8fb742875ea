/** Gauges as they were: values of a span of the past, from services that give any span. */
import type { GaugeConfig, LakeConfig } from '../config/index.ts';
import type { Observation } from '../record/index.ts';
import type { RefreshDeps } from './deps.ts';
import { REGISTRY } from './registry.ts';
import type { PastSpan, PastValues } from './service.ts';
import { within } from './within.ts';

/** Gauges of a lake whose service gives what they measured in any span; of the others the record keeps what it was told. */
export function gaugesWithAPast(lake: LakeConfig): GaugeConfig[] {
  const givesAPast = new Set<string>(REGISTRY.filter(({ past }) => past !== undefined).map(({ id }) => id));
  return lake.gauges.filter(({ service }) => givesAPast.has(service));
}

/**
 * What some gauges of one service measured in a span, as finely as it keeps it.
 *
 * @param gauges of one service, one that gives a past
 * @returns whole answers only: what a service cut off is an error, what it does not have is absent
 * @throws ThawlineError when the service fails
 */
export async function fetchPast(
  lake: LakeConfig,
  gauges: readonly GaugeConfig[],
  span: PastSpan,
  deps: RefreshDeps,
): Promise<PastValues> {
  const service = REGISTRY.find(({ id }) => id === gauges[0]?.service);
  if (service?.past === undefined) return { observations: [], problems: [] };
  const client = within(deps.client, deps.services.timeoutMs);
  const { observations, problems } = await service.past(lake, gauges, span, { ...deps, client });
  const isInside = ({ atMs, kind }: Observation): boolean =>
    kind === 'observed' && atMs > span.fromMs && atMs <= span.toMs;
  return { observations: observations.filter(isInside), problems };
}
