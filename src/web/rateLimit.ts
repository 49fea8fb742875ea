/** Requests per key within a sliding window, in memory: enough for one process, and forgotten with it. */
export interface RateLimit {
  /** Seconds to wait, or 0 when the request may pass; a passing request is counted. */
  waitS(key: string, nowMs: number): number;
}

/** Keys kept at once; the oldest goes first, so that many addresses cannot fill the memory. */
const MOST_KEYS = 20_000;

/**
 * @param most requests that pass in a window
 * @param windowMs length of the window, ms
 */
export function rateLimit(most: number, windowMs: number): RateLimit {
  const passed = new Map<string, number[]>();
  return {
    waitS(key, nowMs) {
      const recent = (passed.get(key) ?? []).filter((at) => at > nowMs - windowMs);
      passed.delete(key);
      const oldest = recent[0];
      if (oldest !== undefined && recent.length >= most) {
        passed.set(key, recent);
        return Math.max(1, Math.ceil((oldest + windowMs - nowMs) / 1000));
      }
      recent.push(nowMs);
      passed.set(key, recent);
      const [first] = passed.keys();
      if (passed.size > MOST_KEYS && first !== undefined) passed.delete(first);
      return 0;
    },
  };
}
