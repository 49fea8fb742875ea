import type { GaugeConfig, LakeConfig } from '../config/index.ts';
import type { Observation } from '../record/index.ts';
import type { ServiceId, ServiceRow, Variable } from '../vocabulary/index.ts';
import type { LakeRefresh } from './basket.ts';
import type { RefreshDeps } from './deps.ts';

/** A lake and what a refresh has brought for it so far. */
export interface Pair {
  readonly lake: LakeConfig;
  readonly basket: LakeRefresh;
}

/** A series as the record names it. */
export type SeriesName = Pick<Observation, 'source' | 'station'>;

/** A span of the past, epoch ms: what ends after its beginning and not after its end. */
export interface PastSpan {
  readonly fromMs: number;
  readonly toMs: number;
}

export interface PastValues {
  readonly observations: readonly Observation[];
  /** One sentence for each gauge that could not be read though its service answered. */
  readonly problems: readonly string[];
}

/**
 * A public service, whole: who is credited, where it lives, what it brings, how it is asked, and which series of the
 * record are its own. Its name, credit and addresses are a row of the vocabulary; what it does is here.
 */
export interface Service {
  readonly id: ServiceId;
  readonly credit: Pick<ServiceRow, 'name' | 'attribution' | 'url' | 'licence'>;
  /** Addresses by the name under which the configuration can move them. */
  readonly bases: Readonly<Record<string, string>>;
  readonly variables: readonly Variable[];
  /** Asks for what the lakes' configuration names of it, in as few requests as it allows; never throws for a service. */
  readonly fetch: (pairs: readonly Pair[], deps: RefreshDeps) => Promise<void>;
  /** Daily levels of the past year of some of a lake's gauges; only where the service keeps so much. */
  readonly year?: (
    lake: LakeConfig,
    gauges: readonly GaugeConfig[],
    deps: RefreshDeps,
  ) => Promise<Observation[]>;
  /** What some of a lake's gauges measured in a span, whole or not at all; only where the service gives any span. */
  readonly past?: (
    lake: LakeConfig,
    gauges: readonly GaugeConfig[],
    span: PastSpan,
    deps: RefreshDeps,
  ) => Promise<PastValues>;
  /** Whether a series of the record is the configured gauge's; without one, whether it is the service's at all. */
  readonly owns: (series: SeriesName, gauge?: GaugeConfig) => boolean;
}

/** What a service file gives; the rest of the object comes from its row of the vocabulary. */
export type Behaviour = Pick<Service, 'id' | 'variables' | 'fetch' | 'year' | 'past'>;
