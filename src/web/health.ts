import { Hono } from 'hono';
import { statusOf, type Status } from '../schedule/index.ts';
import type { WebDeps } from './deps.ts';

/** Monitoring may ask as often as it likes; the record is asked at most once in this time. */
const KEEP_MS = 5000;

/** The facts of `thawline status`; 503 when something needs the operator. */
export function healthPage(deps: WebDeps): Hono {
  let kept: { readonly atMs: number; readonly status: Promise<Status> } | undefined;
  const app = new Hono();
  app.get('/healthz', async (c) => {
    const nowMs = deps.now();
    if (kept === undefined || nowMs - kept.atMs > KEEP_MS || nowMs < kept.atMs)
      kept = { atMs: nowMs, status: statusOf(deps.record, deps.config, nowMs) };
    const status = await kept.status;
    c.header('Cache-Control', 'no-store');
    return c.json(status, status.ok ? 200 : 503);
  });
  return app;
}
