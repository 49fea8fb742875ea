import type { LakeConfig } from '../config/types.ts';
import { emptyRefresh, type LakeRefresh } from './basket.ts';
import type { RefreshDeps } from './deps.ts';
import { sharing } from './http/sharing.ts';
import { REGISTRY } from './registry.ts';

/**
 * Fetch what every lake is configured for, in as few requests as the services allow.
 *
 * It never throws for a service: each failure is a retrieval with `ok` false and one sentence, beside the data of the
 * sources that did answer.
 */
export async function refreshLakes(lakes: readonly LakeConfig[], deps: RefreshDeps): Promise<LakeRefresh[]> {
  const shared = { ...deps, client: sharing(deps.client) };
  const pairs = lakes.map((lake) => ({ lake, basket: emptyRefresh(lake.id) }));
  await Promise.all(REGISTRY.map(async (service) => service.fetch(pairs, shared)));
  return pairs.map((pair) => pair.basket);
}
