export { ATTRIBUTIONS, type Attribution, type SourceId } from './attributions.ts';
export { fetchArchive } from './openMeteo/archive.ts';
export type { LakeRefresh } from './basket.ts';
export type { RefreshDeps } from './deps.ts';
export { createClient } from './http/client.ts';
export type {
  Budget,
  ClientOptions,
  HostMemories,
  HostMemory,
  HttpClient,
  Validator,
  Validators,
} from './http/types.ts';
export { fetchLevelYear } from './fetchLevelYear.ts';
export { fetchPast, gaugesWithAPast } from './past.ts';
export { probeServices, type ProbeResult } from './probe.ts';
export { refreshLakes } from './refresh.ts';
export { HELD_BY_FACTOR } from './unitFactor.ts';
export { gaugesWithAYear, REGISTRY } from './registry.ts';
export type { Service } from './service.ts';
export { baseUrl } from './bases.ts';
export { findPlaces, GEOCODING_BASE, type FoundPlace } from './catalogue/geocoding.ts';
export { distanceKm, placeFacts, type PlaceFacts } from './catalogue/place.ts';
export { gaugesNearby, servicesAround } from './catalogue/gauges.ts';
export { nearestFirst, type GaugeNearby } from './catalogue/gauge.ts';
export { floodGaugesNearby, officeOf, type FloodGauge, type Office } from './catalogue/usWeather.ts';
