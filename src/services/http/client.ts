import { setTimeout as pause } from 'node:timers/promises';
import { Agent } from 'undici';
import { ThawlineError } from '../../units/index.ts';
import { retryAfterMs, StatusCause, statusError, statusOf } from './errors.ts';
import { exchange, type RawReply } from './exchange.ts';
import { Host } from './host.ts';
import type { Budget, ClientOptions, GetRequest, HttpClient, HttpReply, Validator } from './types.ts';

/** Free limits per address as stated by the service (600/min, 5,000/h, 10,000/day), kept a tenth below. */
const OPEN_METEO: readonly Budget[] = [
  { windowMs: 60_000, max: 540 },
  { windowMs: 3_600_000, max: 4500 },
  { windowMs: 86_400_000, max: 9000 },
];
const BUDGETS: Readonly<Record<string, readonly Budget[]>> = {
  'api.open-meteo.com': OPEN_METEO,
  'archive-api.open-meteo.com': OPEN_METEO,
};

const FIRST_PAUSE_MS = 500;
const QUOTA_REST_MS = 15 * 60_000;

/** The one HTTP client: polite to hosts, strict with replies, and every failure one sentence of one family. */
export function createClient(options: ClientOptions): HttpClient {
  const {
    nowMs = Date.now,
    sleep = async (ms: number): Promise<void> => {
      await pause(ms);
    },
    random = Math.random,
    maxBytes = 24_000_000,
    attempts = 3,
    maxWaitMs = 30_000,
  } = options;
  const dispatcher = new Agent({
    connections: options.parallelPerHost,
    connect: { timeout: options.timeoutMs },
  });
  const hosts = new Map<string, Host>();
  const pending = new Map<string, Validator>();
  const userAgent = `thawline (${options.contact.replace(/[^\x20-\x7e]/g, '').slice(0, 200)})`;

  const hostOf = (url: URL): Host => {
    const known = hosts.get(url.host);
    if (known !== undefined) return known;
    const made = new Host(
      Math.max(1, options.parallelPerHost),
      options.budgets?.[url.host] ?? BUDGETS[url.host] ?? [],
    );
    hosts.set(url.host, made);
    return made;
  };

  /** Hosts whose memory was read since the last `confirm`. */
  const recalled = new Set<string>();
  const recall = async (name: string, host: Host): Promise<void> => {
    if (options.memories === undefined || recalled.has(name)) return;
    recalled.add(name);
    const memory = await options.memories.get(name);
    if (memory !== null) host.recall(memory, nowMs());
  };

  /** At once, and not only when all is stored: a process that ends here must not find the host fresh again. */
  const note = async (name: string, host: Host): Promise<void> => {
    // The request has failed already, and says so; what is not noted now is noted at the end of the round.
    await options.memories?.set(name, host.memory()).catch(() => undefined);
  };

  const withinBudget = async (host: Host, service: string): Promise<void> => {
    for (let wait = host.waitMs(nowMs()); wait > 0; wait = host.waitMs(nowMs())) {
      if (wait > maxWaitMs) {
        throw new ThawlineError('service', `Our request budget for ${service} is used up for now.`, {
          retryable: true,
          retryAfterMs: wait,
        });
      }
      await sleep(wait);
    }
    host.count(nowMs());
  };

  const heed = (host: Host, raw: RawReply): number | null => {
    const after = retryAfterMs(raw.headers.get('retry-after'), nowMs());
    if (raw.headers.get('x-ratelimit-remaining')?.trim() === '0')
      host.rest(nowMs() + (after ?? QUOTA_REST_MS));
    return after;
  };

  /** One attempt; a status that means failure is thrown like a broken connection is. */
  const attempt = async (
    url: URL,
    request: GetRequest,
    headers: Record<string, string>,
    host: Host,
  ): Promise<RawReply> => {
    host.ready(request.service, nowMs());
    await withinBudget(host, request.service);
    const raw = await exchange(url, {
      service: request.service,
      headers,
      timeoutMs: options.timeoutMs,
      maxBytes,
      dispatcher,
    });
    const after = heed(host, raw);
    const conditional = 'if-none-match' in headers || 'if-modified-since' in headers;
    if (raw.status === 304 && !conditional) {
      throw new ThawlineError(
        'service',
        `${request.service} answered "not changed" (304) although nothing older was named; it brought nothing.`,
        { retryable: true, cause: new StatusCause(raw.status, raw.bytes) },
      );
    }
    if ((raw.status >= 200 && raw.status <= 299) || raw.status === 304) return raw;
    if (raw.status === 429 && after !== null && after > maxWaitMs) host.rest(nowMs() + after);
    throw statusError(request.service, raw.status, raw.text, raw.bytes, after);
  };

  const persist = async (
    url: URL,
    request: GetRequest,
    headers: Record<string, string>,
    host: Host,
  ): Promise<RawReply> => {
    for (let n = 1; ; n += 1) {
      try {
        const raw = await attempt(url, request, headers, host);
        host.succeeded(nowMs());
        return raw;
      } catch (error) {
        const wait = pauseBefore(error, n);
        if (wait === null) {
          // A reply, even a bad one, shows that the host is there; only silence holds every lake up.
          if (error instanceof ThawlineError && error.retryable && statusOf(error) === null)
            if (host.failed(nowMs())) await note(url.host, host);
          throw error;
        }
        await sleep(wait);
      }
    }
  };

  /** Pause before the next attempt, or null when another attempt cannot help. */
  const pauseBefore = (error: unknown, attemptsMade: number): number | null => {
    if (!(error instanceof ThawlineError) || !error.retryable || attemptsMade >= attempts) return null;
    if (error.retryAfterMs !== undefined) return error.retryAfterMs <= maxWaitMs ? error.retryAfterMs : null;
    const ceiling = FIRST_PAUSE_MS * 2 ** attemptsMade;
    return ceiling / 2 + (random() * ceiling) / 2;
  };

  const get = async (request: GetRequest): Promise<HttpReply> => {
    if (!URL.canParse(request.url)) {
      throw new ThawlineError(
        'service',
        `The address configured for ${request.service} is not a web address.`,
      );
    }
    const url = new URL(request.url);
    const headers: Record<string, string> = {
      accept: 'application/json',
      'user-agent': userAgent,
      ...request.headers,
    };
    const key = request.conditionalFor === undefined ? null : `${request.url}#${request.conditionalFor}`;
    const kept = key === null ? null : ((await options.validators?.get(key)) ?? null);
    if (kept?.etag !== undefined) headers['if-none-match'] = kept.etag;
    if (kept?.lastModified !== undefined) headers['if-modified-since'] = kept.lastModified;
    const host = hostOf(url);
    await recall(url.host, host);
    const leave = await host.enter();
    const startMs = nowMs();
    try {
      const raw = await persist(url, request, headers, host);
      const validator = validatorOf(raw);
      if (key !== null && raw.status === 200 && validator !== null) pending.set(key, validator);
      return {
        status: raw.status,
        text: raw.text,
        bytes: raw.bytes,
        durationMs: nowMs() - startMs,
        notModified: raw.status === 304,
        header: (name) => raw.headers.get(name),
      };
    } finally {
      leave();
    }
  };

  return {
    get,
    session: {},
    confirm: async () => {
      for (const [key, validator] of pending) await options.validators?.set(key, validator);
      pending.clear();
      for (const name of recalled) {
        const memory = hosts.get(name)?.memory();
        if (memory !== undefined) await options.memories?.set(name, memory);
      }
      // Another process may ask the same hosts until the next round.
      recalled.clear();
    },
    counts: () => new Map([...hosts].map(([name, host]) => [name, host.sent])),
    close: async () => dispatcher.close(),
  };
}

function validatorOf(raw: RawReply): Validator | null {
  const etag = raw.headers.get('etag');
  const lastModified = raw.headers.get('last-modified');
  if (etag === null && lastModified === null) return null;
  return { ...(etag === null ? {} : { etag }), ...(lastModified === null ? {} : { lastModified }) };
}
