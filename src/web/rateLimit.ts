/** Requests per visitor within a sliding window: of one process, or of all that share a record. */
import { createHmac } from 'node:crypto';
import type { DeliveryRecord } from '../record/index.ts';
import { countRequests, forgetRequests } from '../record/schedule/index.ts';

export interface RateLimit {
  /** Seconds to wait, or 0 when the request may pass; a passing request is counted. */
  waitS(key: string, nowMs: number): number | Promise<number>;
}

export interface Limit {
  /** Requests that pass in a window. */
  readonly most: number;
  readonly windowMs: number;
}

/** Keys kept at once; the oldest goes first, so that many addresses cannot fill the memory. */
const MOST_KEYS = 20_000;

function put<T>(map: Map<string, T>, key: string, value: T): void {
  map.delete(key);
  map.set(key, value);
  const [first] = map.keys();
  if (map.size > MOST_KEYS && first !== undefined) map.delete(first);
}

const secondsTo = (untilMs: number, nowMs: number): number =>
  Math.max(1, Math.ceil((untilMs - nowMs) / 1000));

/** In memory: enough for one process, and forgotten with it. */
export function rateLimit({ most, windowMs }: Limit): { waitS(key: string, nowMs: number): number } {
  const passed = new Map<string, number[]>();
  return {
    waitS(key, nowMs) {
      const recent = (passed.get(key) ?? []).filter((at) => at > nowMs - windowMs);
      const oldest = recent[0];
      const isFull = oldest !== undefined && recent.length >= most;
      if (!isFull) recent.push(nowMs);
      put(passed, key, recent);
      return isFull ? secondsTo(oldest + windowMs, nowMs) : 0;
    },
  };
}

/** What web processes of one server count together. */
export interface SharedCount {
  readonly record: DeliveryRecord;
  /** Addresses are noted as digests under it. */
  readonly secret: string;
  readonly kind: string;
  /** Requests that a process tells of at once: so many less one may pass unseen at each of the others. */
  readonly tellEach: number;
}

const TIDY_MS = 60_000;

/** Over all processes that share the record. While it is away each goes by its own count. */
export function sharedRate(limit: Limit, { record, secret, kind, tellEach }: SharedCount): RateLimit {
  const own = rateLimit(limit);
  const untold = new Map<string, number>();
  /** Who has had enough, until when: nobody makes the database work by asking on. */
  const full = new Map<string, number>();
  let tidiedMs = 0;
  const tell = async (key: string, requests: number, nowMs: number): Promise<number> => {
    const visitor = createHmac('sha256', secret).update(key).digest('base64url');
    const untilMs = await countRequests(record, { visitor, kind, requests }, { ...limit, nowMs });
    if (nowMs - tidiedMs > TIDY_MS) {
      tidiedMs = nowMs;
      await forgetRequests(record, nowMs - limit.windowMs);
    }
    if (untilMs === 0) return 0;
    put(full, key, untilMs);
    return secondsTo(untilMs, nowMs);
  };
  return {
    async waitS(key, nowMs) {
      const untilMs = full.get(key) ?? 0;
      if (untilMs > nowMs) return secondsTo(untilMs, nowMs);
      full.delete(key);
      const wait = own.waitS(key, nowMs);
      if (wait > 0) return wait;
      const requests = (untold.get(key) ?? 0) + 1;
      if (requests < tellEach) {
        put(untold, key, requests);
        return 0;
      }
      untold.delete(key);
      return tell(key, requests, nowMs).catch(() => 0);
    },
  };
}
