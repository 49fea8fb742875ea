export { ATTRIBUTIONS, type Attribution, type SourceId } from './attributions.ts';
export { fetchArchive } from './archive.ts';
export type { LakeRefresh } from './basket.ts';
export type { RefreshDeps } from './deps.ts';
export { createClient } from './http/client.ts';
export type { Budget, ClientOptions, HttpClient, Validator, Validators } from './http/types.ts';
export { fetchLevelYear, gaugesWithAYear } from './levelYear.ts';
export { probeServices, type ProbeResult } from './probe.ts';
export { refreshLakes } from './refresh.ts';
