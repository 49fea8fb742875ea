/** How fast mail may leave, and when it must stop. */

/**
 * Spaces sends evenly: at most `perSecond`, 0 for no limit. Returns how long to wait before the next one, ms.
 *
 * @param parts among how many senders the limit is shared
 */
export function evenRate(perSecond: number, parts: () => number = () => 1): (nowMs: number) => number {
  let freeMs = -Infinity;
  return (nowMs) => {
    if (perSecond <= 0) return 0;
    // A clock that was set back must not leave us waiting for the old time to return.
    const gapMs = (1000 / perSecond) * parts();
    const start = freeMs > nowMs + 60_000 ? nowMs : Math.max(nowMs, freeMs);
    freeMs = start + gapMs;
    return start - nowMs;
  };
}

export interface WindowLimit {
  readonly count: number;
  readonly windowMs: number;
}

/** Sliding window per receiving domain. Returns 0 when a message may go now, otherwise the wait in ms. */
export function domainWindows(
  limit: WindowLimit,
  parts: () => number = () => 1,
): {
  admit(domain: string, nowMs: number): number;
  /** The provider asked for patience: nothing more for it until then. */
  hold(domain: string, untilMs: number): void;
  /** Counts what others sent: instants of mails by domain. */
  remember(others: readonly { readonly domain: string; readonly atMs: number }[], nowMs: number): void;
} {
  const sent = new Map<string, number[]>();
  const held = new Map<string, number>();
  return {
    admit(domain, nowMs) {
      const until = held.get(domain) ?? 0;
      if (until > nowMs) return until - nowMs;
      held.delete(domain);
      const times = (sent.get(domain) ?? []).filter((t) => t > nowMs - limit.windowMs && t <= nowMs);
      sent.set(domain, times);
      const [oldest] = times;
      if (oldest !== undefined && times.length >= Math.max(1, Math.floor(limit.count / parts())))
        return oldest + limit.windowMs - nowMs;
      times.push(nowMs);
      return 0;
    },
    remember(others, nowMs) {
      const byDomain = new Map<string, number[]>();
      for (const { domain, atMs } of others) byDomain.set(domain, [...(byDomain.get(domain) ?? []), atMs]);
      for (const [domain, times] of byDomain) {
        const own = (sent.get(domain) ?? []).filter((t) => t > nowMs - limit.windowMs && t <= nowMs);
        // Its own mails are among those of the record: the longer list is the whole of both, or near it.
        if (times.length > own.length)
          sent.set(
            domain,
            times.sort((a, b) => a - b),
          );
      }
    },
    hold(domain, untilMs) {
      held.set(domain, Math.max(untilMs, held.get(domain) ?? 0));
    },
  };
}

export type Outcome = 'good' | 'bad' | 'system';
/** How one attempt at a mail ended, and when. */
export interface Heard {
  readonly atMs: number;
  readonly outcome: Outcome;
}

/** Outcomes that are looked at, and how long each counts: as long as delivery rests when it is stopped. */
const LOOK_AT = 40;
const HEARD_MS = 10 * 60_000;

export interface Fuse {
  /** @returns whether delivery must stop */
  note(outcome: Outcome, nowMs: number): boolean;
  /** What this process heard and has not told the others. */
  untold(): readonly Heard[];
  /** Goes by what all have told, its own among it. @returns whether delivery must stop */
  learn(all: readonly Heard[], nowMs: number): boolean;
  /** Begins anew, after it has stopped delivery. */
  clear(): void;
}

/** What all together have heard of late, oldest first. */
export const together = (some: readonly Heard[], more: readonly Heard[], nowMs: number): Heard[] =>
  [...some, ...more]
    .filter(({ atMs }) => atMs > nowMs - HEARD_MS && atMs <= nowMs)
    .sort((a, b) => a.atMs - b.atMs)
    .slice(-LOOK_AT);

/**
 * Trips when something is wrong with more than single messages: three system failures in a row, or half of the
 * last forty attempts (at least twenty) failed. Values are common practice, without a source.
 */
export function fuse(): Fuse {
  let recent: readonly Heard[] = [];
  let untold: readonly Heard[] = [];
  const trips = (): boolean => {
    const last = recent.slice(-3);
    if (last.length === 3 && last.every(({ outcome }) => outcome === 'system')) return true;
    const bad = recent.filter(({ outcome }) => outcome !== 'good').length;
    return recent.length >= LOOK_AT / 2 && bad * 2 >= recent.length;
  };
  return {
    note(outcome, nowMs) {
      const heard = { atMs: nowMs, outcome };
      recent = together(recent, [heard], nowMs);
      untold = together(untold, [heard], nowMs);
      return trips();
    },
    untold: () => untold,
    learn(all, nowMs) {
      recent = together(all, [], nowMs);
      untold = [];
      return trips();
    },
    clear() {
      recent = [];
      untold = [];
    },
  };
}
