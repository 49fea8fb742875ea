import { item, ThawlineError } from '../../units/index.ts';
import type { Budget, HostMemory } from './types.ts';

/** Consecutive failed requests after which a host is left alone for a while: one dead service must not hold up every lake. */
const TRIP_AFTER = 3;
const REST_MS = 60_000;
/** So long after the last of them failures still count: what begins anew in this time asks the same dead host. */
const FAILURES_MS = 10 * 60_000;
const MINUTE_MS = 60_000;
/** Longest rest that is believed when it was noted earlier. */
const LONGEST_REST_MS = 24 * 3_600_000;
const minuteOf = (atMs: number): number => Math.floor(atMs / MINUTE_MS) * MINUTE_MS;

/**
 * What we owe one host: few requests at once, its rate budget, and a rest when it does not answer.
 * The clock and the pause come from the client's options.
 */
export class Host {
  private active = 0;
  private readonly waiting: (() => void)[] = [];
  private readonly sentMs: number[] = [];
  private failures = 0;
  /** When a request last ended, with a reply or without. */
  private heardMs = 0;
  private restUntilMs = 0;
  private readonly parallel: number;
  private readonly budgets: readonly Budget[];
  sent = 0;

  constructor(parallel: number, budgets: readonly Budget[]) {
    this.parallel = parallel;
    this.budgets = budgets;
  }

  /** Takes over what this or another process noted; requests of a minute count from its end, which is never too early. */
  recall({ restUntilMs, sent, failures }: HostMemory, nowMs: number): void {
    // Further ahead than anybody asks for: noted by a clock that ran ahead.
    if (restUntilMs <= nowMs + LONGEST_REST_MS) this.rest(restUntilMs);
    const { inARow, heardMs } = failures;
    if (heardMs > this.heardMs && heardMs <= nowMs) {
      this.failures = inARow;
      this.heardMs = heardMs;
    }
    if (this.budgets.length === 0) return;
    const own = new Map<number, number>();
    for (const atMs of this.sentMs) own.set(minuteOf(atMs), (own.get(minuteOf(atMs)) ?? 0) + 1);
    for (const [minuteMs, requests] of sent) {
      if (minuteMs > nowMs) continue;
      const more = requests - (own.get(minuteMs) ?? 0);
      for (let n = 0; n < more; n += 1) this.sentMs.push(Math.min(minuteMs + MINUTE_MS - 1, nowMs));
    }
    this.sentMs.sort((a, b) => a - b);
  }

  /** What another process, or this one after a restart, must know. */
  memory(): HostMemory {
    const minutes = new Map<number, number>();
    for (const atMs of this.sentMs) minutes.set(minuteOf(atMs), (minutes.get(minuteOf(atMs)) ?? 0) + 1);
    const { failures: inARow, heardMs } = this;
    return { restUntilMs: this.restUntilMs, failures: { inARow, heardMs }, sent: [...minutes] };
  }

  async enter(): Promise<() => void> {
    if (this.active >= this.parallel) await new Promise<void>((go) => this.waiting.push(go));
    else this.active += 1;
    return () => {
      const next = this.waiting.shift();
      if (next === undefined) this.active -= 1;
      else next();
    };
  }

  /** Refuse at once while the host rests. */
  ready(service: string, nowMs: number): void {
    if (nowMs >= this.restUntilMs) return;
    throw new ThawlineError(
      'service',
      `${service} is left alone for now after it failed or asked us to wait.`,
      {
        retryable: true,
        retryAfterMs: this.restUntilMs - nowMs,
      },
    );
  }

  /** Time until the budgets allow one more request; 0 when one may go now. */
  waitMs(nowMs: number): number {
    const longest = Math.max(0, ...this.budgets.map((b) => b.windowMs));
    while (this.sentMs.length > 0 && item(this.sentMs, 0) <= nowMs - longest) this.sentMs.shift();
    let wait = 0;
    for (const { windowMs, max } of this.budgets) {
      const gate = this.sentMs[this.sentMs.length - max];
      if (gate !== undefined) wait = Math.max(wait, gate + windowMs - nowMs);
    }
    return wait;
  }

  count(nowMs: number): void {
    this.sent += 1;
    if (this.budgets.length > 0) this.sentMs.push(nowMs);
  }

  succeeded(nowMs: number): void {
    this.failures = 0;
    this.heardMs = nowMs;
  }

  /** @returns whether the host rests from now on */
  failed(nowMs: number): boolean {
    this.failures = nowMs - this.heardMs > FAILURES_MS ? 1 : this.failures + 1;
    this.heardMs = nowMs;
    if (this.failures < TRIP_AFTER) return false;
    this.rest(nowMs + REST_MS);
    return true;
  }

  rest(untilMs: number): void {
    this.restUntilMs = Math.max(this.restUntilMs, untilMs);
  }
}
