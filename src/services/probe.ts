import { ThawlineError } from '../units/index.ts';
import type { Config, LakeConfig } from '../config/index.ts';
import type { SourceId } from './attributions.ts';
import type { RefreshDeps } from './deps.ts';
import { refreshLakes } from './refresh.ts';

export interface ProbeResult {
  readonly service: SourceId;
  readonly ok: boolean;
  readonly sentence: string;
  readonly ms: number;
}

/**
 * Try each service that the configuration uses once, with the lakes as they are configured and a window of one day.
 * Nothing is thrown for a service that fails; its row says so.
 */
export async function probeServices(
  config: Pick<Config, 'lakes' | 'services'>,
  deps: Omit<RefreshDeps, 'services' | 'pastDays'>,
): Promise<ProbeResult[]> {
  if (config.lakes.length === 0)
    throw new ThawlineError('config', 'There is no lake in the configuration to ask for.');
  const lakes: readonly LakeConfig[] = config.lakes;
  const refreshed = await refreshLakes(lakes, { ...deps, services: config.services, pastDays: 1 });
  const retrievals = refreshed.flatMap((r) => r.retrievals);
  const sources = [...new Set(retrievals.map((r) => r.source as SourceId))].sort();
  return sources.map((service) => {
    const own = retrievals.filter((r) => r.source === service);
    const problems = [...new Set(own.filter((r) => !r.ok).map((r) => r.problem))];
    const values = refreshed.flatMap((r) => r.observations).filter((o) => o.source === service).length;
    return {
      service,
      ok: problems.length === 0,
      sentence: problems.length === 0 ? `answered, ${values} values` : problems.join(' '),
      ms: Math.max(0, ...own.map((r) => r.durationMs)),
    };
  });
}
