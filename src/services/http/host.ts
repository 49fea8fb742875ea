import { ThawlineError } from '../../units/index.ts';
import type { Budget } from './types.ts';

/** Consecutive failed requests after which a host is left alone for a while: one dead service must not hold up every lake. */
const TRIP_AFTER = 3;
const REST_MS = 60_000;

/**
 * What we owe one host: few requests at once, its rate budget, and a rest when it does not answer.
 * The clock and the pause come from the client's options.
 */
export class Host {
  private active = 0;
  private readonly waiting: (() => void)[] = [];
  private readonly sentMs: number[] = [];
  private failures = 0;
  private restUntilMs = 0;
  private readonly parallel: number;
  private readonly budgets: readonly Budget[];
  sent = 0;

  constructor(parallel: number, budgets: readonly Budget[]) {
    this.parallel = parallel;
    this.budgets = budgets;
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
    while (this.sentMs.length > 0 && (this.sentMs[0] ?? 0) <= nowMs - longest) this.sentMs.shift();
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

  succeeded(): void {
    this.failures = 0;
  }

  failed(nowMs: number): void {
    this.failures += 1;
    if (this.failures >= TRIP_AFTER) this.rest(nowMs + REST_MS);
  }

  rest(untilMs: number): void {
    this.restUntilMs = Math.max(this.restUntilMs, untilMs);
  }
}
