/** The job engine: an existing one that keeps its jobs in PostgreSQL, beside the record and in the same transactions. */
import { setTimeout as sleep } from 'node:timers/promises';
import type PgBoss from 'pg-boss';
import type { Logger } from 'pino';
import type { DeliveryRecord } from '../../record/index.ts';
import { inTurn, JOBS_SCHEMA, withinStep } from '../../record/schedule/index.ts';
import { problemOf } from '../issue.ts';

/** What there is to do, each in a queue of its own, so that a long one never stands before another. */
export const QUEUES = ['refresh', 'issue', 'deliver', 'bounces', 'retention', 'webhooks'] as const;
export type QueueName = (typeof QUEUES)[number];

/**
 * A job is only a wake-up: what is due stands in the record, whose rows decide. So a job that is lost is asked for again
 * at the next pass, and one that comes twice finds nothing to do.
 */
export interface Engine {
  /**
   * Asks for a job; one of the same key that still waits is enough.
   *
   * @param step the transaction that it belongs to: without that, the job is not there either
   */
  ask(
    queue: QueueName,
    key: string,
    data: object,
    more?: { step?: DeliveryRecord; urgent?: boolean },
  ): Promise<void>;
  /** Does the jobs of a queue here, one at a time. */
  serve(queue: QueueName, work: (data: object, key: string) => Promise<void>): void;
  /** Takes no new job, waits for those under way, and lets go. */
  stop(): Promise<void>;
}

export interface EngineOptions {
  readonly log: Logger;
  /** How often a queue is looked at when nothing is under way, s; at least 0.5. */
  readonly pollS?: number;
  /** After this long an active job counts as lost with its worker, s. */
  readonly lostAfterS?: number;
  /** A statement that is not answered by then is given up: the connection may lead nowhere; ms. */
  readonly answerMs?: number;
}

const CONNECTIONS = 4;
const STOP_MS = 25_000;

/**
 * Opens the engine, making its tables where it may.
 *
 * @param record beside which the engine's tables lie
 * @param address of the PostgreSQL database of the record
 */
export async function openEngine(
  record: DeliveryRecord,
  address: string,
  { log, pollS = 1, lostAfterS = 300, answerMs = 60_000 }: EngineOptions,
): Promise<Engine> {
  // Only who shares a record loads it.
  const { default: Boss } = await import('pg-boss');
  // Handed on to the driver of its connections.
  const connection = { query_timeout: answerMs, connectionTimeoutMillis: 10_000, keepAlive: true };
  const boss = new Boss({
    ...connection,
    connectionString: address,
    schema: JOBS_SCHEMA,
    application_name: 'thawline jobs',
    max: CONNECTIONS,
    // Our own schedule asks for what is due.
    schedule: false,
    maintenanceIntervalSeconds: 30,
    archiveCompletedAfterSeconds: 3600,
    archiveFailedAfterSeconds: 24 * 3600,
    deleteAfterDays: 7,
  });
  // The class and the code, not the message: those of other programs may quote addresses.
  boss.on('error', (error) =>
    log.warn(
      { fault: error.name, code: 'code' in error ? error.code : undefined },
      'the job engine will try again',
    ),
  );
  await inTurn(record, async () => {
    await boss.start();
    const there = new Set((await boss.getQueues()).map(({ name }) => name));
    for (const name of QUEUES)
      if (!there.has(name))
        await boss.createQueue(name, {
          name,
          // The services are asked by one process at a time, so that their limits hold over all of them together.
          policy: name === 'refresh' ? 'singleton' : 'short',
          retryLimit: 0,
          retentionDays: 2,
        });
  });
  const stopping = new AbortController();
  const loops: Promise<void>[] = [];
  return {
    ask: async (queue, key, data, { step, urgent = false } = {}) => {
      await boss.send(queue, data, {
        singletonKey: key,
        priority: urgent ? 10 : 0,
        expireInSeconds: lostAfterS,
        retryLimit: 0,
        ...(step === undefined ? {} : withinStep(step)),
      });
    },
    serve: (queue, work) => {
      loops.push(serving(boss, queue, work, pollS * 1000, stopping.signal, log));
    },
    stop: async () => {
      stopping.abort();
      await Promise.race([Promise.all(loops), sleep(STOP_MS)]);
      await boss.stop({ graceful: false });
    },
  };
}

/**
 * Takes job after job. The engine's own loop is not used: it leaves the end of a job to a promise that nobody waits for,
 * so that a database that goes away at that moment ends the process (seen on kills of the server in the tests).
 */
async function serving(
  boss: PgBoss,
  queue: QueueName,
  work: (data: object, key: string) => Promise<void>,
  pollMs: number,
  signal: AbortSignal,
  log: Logger,
): Promise<void> {
  while (!signal.aborted) {
    try {
      // A database that is away answers with no job.
      const [job] = await boss.fetch<object>(queue, { includeMetadata: true });
      if (job === undefined) {
        await sleep(pollMs, undefined, { signal }).catch(() => undefined);
        continue;
      }
      try {
        await work(job.data, job.singletonKey ?? '');
        await boss.complete(queue, job.id);
      } catch (error) {
        log.error({ queue, problem: problemOf(error) }, 'a job failed; what is due is asked for again');
        await boss.fail(queue, job.id, { problem: problemOf(error) });
      }
    } catch (error) {
      // The end could not be noted: the engine counts the job as lost after its time.
      log.warn({ queue, problem: problemOf(error) }, 'the job engine will try again');
      await sleep(pollMs, undefined, { signal }).catch(() => undefined);
    }
  }
}
