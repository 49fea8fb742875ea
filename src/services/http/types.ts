export interface Validator {
  readonly etag?: string;
  readonly lastModified?: string;
}

/** Where validators of earlier replies live; the record keeps them, so that they survive a restart. */
export interface Validators {
  get(url: string): Promise<Validator | null>;
  set(url: string, validator: Validator): Promise<void>;
}

/**
 * What is known of a host beyond the life of a client. Requests count for as long as its longest budget looks back (a
 * day), a rest for as long as the host asked for, failures for ten minutes after the last.
 */
export interface HostMemory {
  readonly restUntilMs: number;
  /** Requests in a row that got no reply, and when the last request ended either way; counts for ten minutes. */
  readonly failures: { readonly inARow: number; readonly heardMs: number };
  /** Requests by the minute they were sent in, oldest first. */
  readonly sent: readonly (readonly [minuteMs: number, requests: number])[];
}

/** Where it is kept: the record, so that a restart or a second process keeps to the same budgets. */
export interface HostMemories {
  get(host: string): Promise<HostMemory | null>;
  set(host: string, memory: HostMemory): Promise<void>;
}

/** At most `max` requests in any `windowMs`. */
export interface Budget {
  readonly windowMs: number;
  readonly max: number;
}

export interface ClientOptions {
  /** Put into the User-Agent, so that a service can reach the operator. */
  readonly contact: string;
  readonly timeoutMs: number;
  readonly parallelPerHost: number;
  readonly sleep?: (ms: number) => Promise<void>;
  readonly nowMs?: () => number;
  readonly random?: () => number;
  readonly validators?: Validators;
  readonly memories?: HostMemories;
  /** Largest body read, bytes; default 24 MB. */
  readonly maxBytes?: number;
  /** Attempts in all, default 3. */
  readonly attempts?: number;
  /** Longest pause we accept, from `Retry-After` or a budget, before giving up for now; default 30 s. */
  readonly maxWaitMs?: number;
  /** By host (`api.open-meteo.com`); replaces the shipped budget of that host. */
  readonly budgets?: Readonly<Record<string, readonly Budget[]>>;
}

export interface GetRequest {
  readonly url: string;
  /** Name in sentences and the retrieval log, e.g. `USGS`. */
  readonly service: string;
  readonly headers?: Readonly<Record<string, string>>;
  /**
   * Set to ask "only if changed". The text is part of the validator's key, so that a reply kept for one lake does
   * not answer for another.
   */
  readonly conditionalFor?: string;
}

export interface HttpReply {
  readonly status: number;
  /** Empty when `notModified`. */
  readonly text: string;
  readonly bytes: number;
  readonly durationMs: number;
  readonly notModified: boolean;
  header(name: string): string | null;
}

export interface HttpClient {
  /** @throws ThawlineError of code `service` for every failure, time-outs included */
  get(request: GetRequest): Promise<HttpReply>;
  /** Keep the validators of replies so far. Call it once what they brought is safely in the record. */
  confirm(): Promise<void>;
  /** Identity that wrappers of this client keep; what is remembered between refreshes hangs on it. */
  readonly session: object;
  /** Requests sent so far, by host. */
  counts(): ReadonlyMap<string, number>;
  close(): Promise<void>;
}
