import type { LakeConfig } from '../config/index.ts';
import type { Observation } from '../record/index.ts';
import type { RefreshDeps } from './deps.ts';
import { gaugesWithAYear, REGISTRY } from './registry.ts';
import { within } from './within.ts';

/**
 * Daily levels of the past year for the gauges whose service keeps one.
 *
 * @returns observations with a period of a day
 * @throws ThawlineError of the first source that fails
 */
export async function fetchLevelYear(lake: LakeConfig, deps: RefreshDeps): Promise<Observation[]> {
  const gauges = gaugesWithAYear(lake);
  const result: Observation[] = [];
  for (const { id, year } of REGISTRY) {
    const own = gauges.filter(({ service }) => service === id);
    if (year === undefined || own.length === 0) continue;
    const client = within(deps.client, deps.services.timeoutMs);
    result.push(...(await year(lake, own, { ...deps, client })));
  }
  return result;
}
