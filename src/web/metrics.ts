/** The state of the record as Prometheus text. https://prometheus.io/docs/instrumenting/exposition_formats/ */
import { Hono } from 'hono';
import { statusOf } from '../schedule/index.ts';
import { countOutbox } from '../record/delivery/index.ts';
import type { WebDeps } from './deps.ts';

/** A scraper may ask as often as it likes; the record is asked at most once in this time. */
const KEEP_MS = 5000;

/** All of it as text, read from the record: whichever process is asked, the answer is that of all of them. */
async function metricsText(deps: WebDeps): Promise<{ readonly type: string; readonly text: string }> {
  // Only who is scraped loads it.
  const { default: prom } = await import('prom-client');
  const { Gauge, Registry } = prom;
  const registry = new Registry();
  const gauge = (name: string, help: string, ...labelNames: string[]): InstanceType<typeof Gauge> =>
    new Gauge({ name, help, labelNames, registers: [registry] });
  const nowMs = deps.now();
  const status = await statusOf(deps.record, deps.config, nowMs);
  const { queue } = status;
  gauge('thawline_ok', '1 when nothing needs the operator').set(Number(status.ok));
  gauge('thawline_workers', 'Processes at work').set(queue.workers);
  gauge('thawline_delivery_paused', '1 while delivery rests').set(Number(status.pausedUntilMs !== null));
  gauge('thawline_mails_due', 'Mails that are due now and not yet under way').set(queue.dueMails);
  gauge('thawline_mails_due_oldest_seconds', 'How long the oldest of them has been due').set(
    queue.oldestDueMs === null ? 0 : Math.max(0, (nowMs - queue.oldestDueMs) / 1000),
  );
  const mails = gauge('thawline_mails', 'Mails of the outbox by state', 'state');
  for (const [state, n] of Object.entries(await countOutbox(deps.record))) mails.set({ state }, n);
  const jobs = gauge('thawline_jobs', 'Jobs of the engine by queue and state', 'queue', 'state');
  const oldest = gauge('thawline_jobs_oldest_seconds', 'How long the oldest job has waited', 'queue');
  for (const { queue: name, waiting, active, failed, oldestMs } of queue.jobs) {
    for (const [state, n] of Object.entries({ waiting, active, failed })) jobs.set({ queue: name, state }, n);
    oldest.set({ queue: name }, oldestMs === null ? 0 : Math.max(0, (nowMs - oldestMs) / 1000));
  }
  gauge('thawline_jobs_failed_for_good', 'Work that failed again and again and needs the operator').set(
    queue.failed.length,
  );
  const problems = gauge('thawline_lake_problems', 'What needs the operator, by lake', 'lake');
  const refreshed = gauge('thawline_lake_refreshed_timestamp_seconds', 'Last refresh with data', 'lake');
  const issued = gauge('thawline_lake_issued_timestamp_seconds', 'Last issue', 'lake');
  const readers = gauge('thawline_lake_readers', 'Active readers', 'lake');
  for (const one of status.lakes) {
    const { lake } = one;
    problems.set({ lake }, one.problems.length);
    readers.set({ lake }, one.readers);
    if (one.lastGoodRefreshMs !== null) refreshed.set({ lake }, one.lastGoodRefreshMs / 1000);
    if (one.lastIssue !== null) issued.set({ lake }, one.lastIssue.atMs / 1000);
  }
  return { type: registry.contentType, text: await registry.metrics() };
}

export function metricsPage(deps: WebDeps): Hono {
  let kept: { readonly atMs: number; readonly answer: ReturnType<typeof metricsText> } | undefined;
  const app = new Hono();
  app.get('/metrics', async (c) => {
    const nowMs = deps.now();
    if (kept === undefined || nowMs - kept.atMs > KEEP_MS || nowMs < kept.atMs)
      kept = { atMs: nowMs, answer: metricsText(deps) };
    const { type, text } = await kept.answer;
    return c.body(text, 200, { 'content-type': type, 'cache-control': 'no-store' });
  });
  return app;
}
