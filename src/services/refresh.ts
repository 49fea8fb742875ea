import type { LakeConfig } from '../config/index.ts';
import type { Observation } from '../record/index.ts';
import { emptyRefresh, noteProblem, type LakeRefresh } from './basket.ts';
import type { RefreshDeps } from './deps.ts';
import { sharing } from './http/sharing.ts';
import { REGISTRY } from './registry.ts';
import { withoutHotWater, withoutWrongSeries } from './wholeSeries.ts';

/**
 * Fetch what every lake is configured for, in as few requests as the services allow.
 *
 * It never throws for a service: each failure is a retrieval with `ok` false and one sentence, beside the data of the
 * sources that did answer. A weather series that is wrong as a whole is refused and named.
 *
 * @param known what the record has of the hours around now, by lake; a reply that contradicts it may be refused
 */
export async function refreshLakes(
  lakes: readonly LakeConfig[],
  deps: RefreshDeps,
  known: ReadonlyMap<string, readonly Observation[]> = new Map(),
): Promise<LakeRefresh[]> {
  const shared = { ...deps, client: sharing(deps.client) };
  const pairs = lakes.map((lake) => ({ lake, basket: emptyRefresh(lake.id) }));
  await Promise.all(REGISTRY.map(async (service) => service.fetch(pairs, shared)));
  return pairs.map(({ lake, basket }) => {
    const refused: (readonly [problem: string, source: string])[] = [];
    const observations = withoutWrongSeries(
      basket.observations,
      lake.latDeg,
      (problem, source) => refused.push([problem, source]),
      known.get(lake.id),
    );
    for (const [problem, source] of refused) noteProblem(source, basket, deps, problem);
    return { ...basket, observations: withoutHotWater(observations, lake.latDeg) };
  });
}
