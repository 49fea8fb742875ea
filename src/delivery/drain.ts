/** Empties the outbox: claim, send, note. At least once, with the same Message-ID at every attempt. */
import type { Logger } from 'pino';
import * as z from 'zod';
import {
  type ClaimedRow,
  claimOutbox,
  dropStale,
  finishOutbox,
  handBackOutbox,
  lakesOfReaders,
  postponeOutbox,
} from '../record/delivery/index.ts';
import { getState, putState } from '../record/schedule/index.ts';
import type { DeliveryRecord } from '../record/index.ts';
import { reportBounce } from './bounces.ts';
import { backOffMs, classifyFailure, type Failure } from './failure.ts';
import type { LinkMaker } from './links.ts';
import { sendOperatorLetter, tellOperator } from './operator.ts';
import { cardCache, messageFor, renderingCache } from './outgoing.ts';
import {
  createSender,
  forgetOutcomes,
  holdDomain,
  rememberSent,
  shareOutcomes,
  type Sender,
} from './sender.ts';
import { MESSAGE_LIMIT_MS, type MailTransport } from './transport.ts';

export interface DrainDeps {
  readonly mail: {
    readonly from: string;
    readonly replyTo?: string;
    readonly listId: string;
    readonly ratePerSecond: number;
    readonly operator?: string;
  };
  readonly transport: MailTransport;
  readonly links: LinkMaker;
  /** Unique to this process; the lease is held under it. */
  readonly owner: string;
  readonly now: () => number;
  readonly sleep: (ms: number) => Promise<void>;
  /** In [0, 1). */
  readonly random: () => number;
  readonly log: Logger;
  /** When it fires, messages under way are finished and the rest handed back. */
  readonly signal?: AbortSignal;
  /** Pace and limits that outlive a round; made for this one when absent. */
  readonly sender?: Sender;
}

export interface DrainReport {
  sent: number;
  retried: number;
  failed: number;
  dropped: number;
  /** End of the pause, when delivery is paused. */
  pausedUntilMs: number | null;
}

/** Longer than any one message may take, so that a lease never runs out under a living sender. */
const LEASE_MS = 2 * MESSAGE_LIMIT_MS + 60_000;
const PAUSE_MS = 10 * 60_000;
const PAUSE_KEY = 'delivery-pause';
const pauseSchema = z.object({ untilMs: z.number(), reason: z.string() });

/** Pause of delivery that is in force, if any. A pause further ahead than any can be means the clock was set back. */
export async function currentPause(
  record: DeliveryRecord,
  nowMs: number,
): Promise<{ untilMs: number; reason: string } | null> {
  const read = pauseSchema.safeParse(await getState(record, PAUSE_KEY));
  if (!read.success || read.data.untilMs <= nowMs || read.data.untilMs > nowMs + PAUSE_MS) return null;
  return read.data;
}

/** Sends everything that is due now; returns when nothing is, when delivery is paused, or when the signal fires. */
export async function drain(record: DeliveryRecord, deps: DrainDeps): Promise<DrainReport> {
  const report: DrainReport = { sent: 0, retried: 0, failed: 0, dropped: 0, pausedUntilMs: null };
  report.dropped += await dropStale(record, deps.now());
  if (report.dropped > 0) deps.log.warn({ dropped: report.dropped }, 'stale mail dropped');
  const pause = await currentPause(record, deps.now());
  if (pause !== null) return { ...report, pausedUntilMs: pause.untilMs };
  await sendOperatorLetter(record, deps.mail, deps.transport, deps.now());
  const sender = deps.sender ?? createSender(deps.mail);
  await rememberSent(record, sender, deps.now());
  const run = new Drainage(record, deps, sender, report);
  await run.work();
  return report;
}

class Drainage {
  readonly #record: DeliveryRecord;
  readonly #deps: DrainDeps;
  readonly #report: DrainReport;
  readonly #sender: Sender;
  readonly #renderings: ReturnType<typeof renderingCache>;
  readonly #cards: ReturnType<typeof cardCache>;
  #queue: ClaimedRow[] = [];
  #lakes: ReadonlyMap<string, readonly string[]> = new Map();
  #claiming: Promise<void> | null = null;
  #stopped = false;

  constructor(record: DeliveryRecord, deps: DrainDeps, sender: Sender, report: DrainReport) {
    this.#record = record;
    this.#deps = deps;
    this.#report = report;
    this.#sender = sender;
    this.#renderings = renderingCache(record);
    this.#cards = cardCache(record);
  }

  async work(): Promise<void> {
    try {
      // allSettled: one worker that hits a broken record must not leave the others sending unwatched.
      const ended = await Promise.allSettled(
        Array.from({ length: this.#deps.transport.connections }, () => this.#worker()),
      );
      const broken = ended.find((e) => e.status === 'rejected');
      if (broken !== undefined) throw broken.reason;
      if (!this.#stopped) await this.#heed();
    } finally {
      await handBackOutbox(this.#record, this.#deps.owner);
    }
  }

  async #worker(): Promise<void> {
    for (let row = await this.#next(); row !== undefined; row = await this.#next()) {
      try {
        await this.#deliver(row);
      } catch (error) {
        this.#stopped = true;
        throw error;
      }
    }
  }

  get #halted(): boolean {
    return this.#stopped || this.#deps.signal?.aborted === true;
  }

  /** Next row of the shared batch; claims a new batch when it is used up. */
  async #next(): Promise<ClaimedRow | undefined> {
    while (!this.#halted) {
      const row = this.#queue.shift();
      if (row !== undefined) return row;
      this.#claiming ??= this.#claim();
      await this.#claiming;
      this.#claiming = null;
      if (this.#queue.length === 0) return undefined;
    }
    return undefined;
  }

  /** Hears of the other senders: what one of them met is met by all. */
  async #heed(): Promise<void> {
    const { now } = this.#deps;
    if (await shareOutcomes(this.#record, this.#sender, now()))
      return this.#pause('Mails failed at several senders.');
    const pause = await currentPause(this.#record, now());
    if (pause === null) return;
    this.#stopped = true;
    this.#report.pausedUntilMs = pause.untilMs;
  }

  async #claim(): Promise<void> {
    await this.#heed();
    if (this.#stopped) return;
    const { transport, owner, now } = this.#deps;
    const limit = transport.connections * 8;
    this.#queue = await claimOutbox(this.#record, { owner, nowMs: now(), leaseMs: LEASE_MS, limit });
    const ids = this.#queue.map((row) => row.reader_id);
    // Rows of the batch before are still on their way.
    this.#lakes = new Map([...this.#lakes, ...(await lakesOfReaders(this.#record, ids))].slice(-4 * limit));
  }

  async #deliver(row: ClaimedRow): Promise<void> {
    const deps = this.#deps;
    const record = this.#record;
    const domain = row.address.slice(row.address.lastIndexOf('@') + 1);
    const waitMs = this.#sender.domains.admit(domain, deps.now());
    if (waitMs > 0) {
      const problem = 'Held back: enough for this provider for now.';
      await postponeOutbox(record, row, deps.owner, {
        atMs: deps.now() + waitMs,
        counted: false,
        problem,
      });
      return;
    }
    const restMs = this.#sender.rate(deps.now());
    if (restMs > 0) await deps.sleep(restMs);
    const nowMs = deps.now();
    // Waited too long for its turn: somebody else may hold it now.
    if ((row.lease_until_ms ?? 0) - nowMs < MESSAGE_LIMIT_MS) return;
    if (row.expires_ms <= nowMs) return this.#end(row, 'dropped', 'Not sent within its grace window.');
    const made = await messageFor(row, {
      ...deps,
      renderings: this.#renderings,
      cards: this.#cards,
      lakesOf: (id) => this.#lakes.get(id) ?? [],
      nowMs,
    }).catch((error: unknown) => classifyFailure(error));
    if ('skip' in made) return this.#end(row, 'dropped', made.skip);
    if ('kind' in made) return this.#failed(row, domain, made);
    try {
      await deps.transport.send(made.message);
    } catch (error) {
      return this.#failed(row, domain, classifyFailure(error));
    }
    await finishOutbox(record, row, deps.owner, { state: 'sent', nowMs: deps.now(), smtpCode: 250 });
    this.#report.sent += 1;
    this.#sender.fuse.note('good', this.#deps.now());
  }

  async #end(
    row: ClaimedRow,
    state: 'dropped' | 'failed',
    problem: string,
    smtpCode?: number,
  ): Promise<void> {
    const end = { state, nowMs: this.#deps.now(), problem, ...(smtpCode === undefined ? {} : { smtpCode }) };
    await finishOutbox(this.#record, row, this.#deps.owner, end);
    this.#report[state] += 1;
  }

  async #failed(row: ClaimedRow, domain: string, failure: Failure): Promise<void> {
    const { kind, sentence, smtpCode } = failure;
    const { owner, log, now, random } = this.#deps;
    log.warn(
      { outbox: row.id, lake: row.lake_id, edition: row.edition, kind, smtpCode, reason: sentence },
      'mail not accepted',
    );
    if (smtpCode === 421) await holdDomain(this.#record, this.#sender, domain, now());
    if (kind === 'address' || kind === 'refused') {
      await this.#end(row, 'failed', sentence, smtpCode);
      if (kind === 'address') await reportBounce(this.#record, { readerId: row.reader_id }, 'hard', now());
    } else {
      const code = smtpCode === undefined ? {} : { smtpCode };
      const atMs = now() + backOffMs(row.attempts, random());
      await postponeOutbox(this.#record, row, owner, {
        atMs,
        counted: true,
        problem: sentence,
        ...code,
      });
      this.#report.retried += 1;
    }
    // Greylisting and dead addresses are everyday; they say nothing about our own way out.
    if (kind === 'greylisted' || kind === 'address') return;
    if (this.#sender.fuse.note(kind === 'system' ? 'system' : 'bad', now())) await this.#pause(sentence);
  }

  async #pause(sentence: string): Promise<void> {
    if (this.#stopped) return;
    this.#stopped = true;
    const nowMs = this.#deps.now();
    const untilMs = nowMs + PAUSE_MS;
    this.#report.pausedUntilMs = untilMs;
    await putState(this.#record, PAUSE_KEY, { untilMs, reason: sentence }, nowMs);
    await forgetOutcomes(this.#record, this.#sender, nowMs);
    this.#deps.log.error({ untilMs, reason: sentence }, 'delivery paused');
    const text = `Too many mails failed, so delivery rests until ${new Date(untilMs).toISOString()}.\nLast problem: ${sentence}\nSee \`thawline status\`.\n`;
    await tellOperator(this.#record, 'Briefing delivery is paused', text, nowMs);
    await sendOperatorLetter(this.#record, this.#deps.mail, this.#deps.transport, nowMs);
  }
}
