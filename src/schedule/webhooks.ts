/** Tells other programs of an issue: one signed POST per issue and address, at least once, with the same id at every attempt. */
import { createHash, createHmac } from 'node:crypto';
import * as z from 'zod';
import type { Config, LakeConfig, WebhookConfig } from '../config/index.ts';
import { getState, lastRun, loadBriefing, putState } from '../record/schedule/index.ts';
import { DAY_MS } from '../units/time/index.ts';
import { expandQuantities, trimEndOf } from '../units/index.ts';
import { readArchived, toPage, wordsFor, type BriefingPage } from '../words/index.ts';
import type { ScheduleDeps } from './types.ts';

/** An answer that takes longer is none. */
const ANSWER_MS = 10_000;
/** What is older is no news any more. */
const NEWS_MS = DAY_MS / 2;
/** Waits between attempts, the last one again and again until the news is old. */
const WAITS_MS = [1, 5, 15, 60].map((minutes) => minutes * 60_000);
const stateSchema = z.record(
  z.string(),
  z.object({ told: z.string(), trying: z.string(), attempts: z.number(), nextMs: z.number() }),
);
type Progress = z.output<typeof stateSchema>[string];
const NOTHING: Progress = { told: '', trying: '', attempts: 0, nextMs: 0 };

/** What is told of an issue; numbers of the document stand behind `data`. */
export interface IssueNews {
  readonly type: 'briefing.issued';
  readonly lake: string;
  readonly date: string;
  readonly edition: string;
  readonly issued: string;
  readonly level: number;
  readonly subject: string;
  readonly bottomLine: string;
  readonly page: string;
  readonly data: string;
}

/**
 * Headers of a message after the open Standard Webhooks specification (1.0.0, https://www.standardwebhooks.com): the id,
 * the time in seconds, and the HMAC-SHA256 of `id.time.body` in base64 behind `v1,`.
 */
export function signedHeaders(
  id: string,
  body: string,
  secret: string,
  nowMs: number,
): Readonly<Record<string, string>> {
  const timestamp = String(Math.floor(nowMs / 1000));
  const key = secret.startsWith('whsec_') ? Buffer.from(secret.slice(6), 'base64') : Buffer.from(secret);
  const signature = createHmac('sha256', key).update(`${id}.${timestamp}.${body}`).digest('base64');
  return {
    'webhook-id': id,
    'webhook-timestamp': timestamp,
    'webhook-signature': `v1,${signature}`,
    'content-type': 'application/json',
  };
}

type Deps = Pick<ScheduleDeps, 'record' | 'config' | 'now' | 'log'> & {
  readonly env: Readonly<Record<string, string | undefined>>;
};

/** Tells every address what it does not know yet. A dead address is tried again later and holds up nobody. */
export async function tellWebhooks(deps: Deps): Promise<void> {
  for (const [index, hook] of (deps.config.webhooks ?? []).entries()) {
    // A digest names it: the address may hold a token.
    const key = `webhook:${createHash('sha256').update(hook.url).digest('hex').slice(0, 16)}`;
    const progress = stateSchema.safeParse(await getState(deps.record, key)).data ?? {};
    let changed = false;
    for (const lake of deps.config.lakes) {
      if (hook.lakes !== undefined && !hook.lakes.includes(lake.id)) continue;
      const next = await tell(deps, hook, index, lake, progress[lake.id] ?? NOTHING);
      if (next === null) continue;
      progress[lake.id] = next;
      changed = true;
    }
    if (changed) await putState(deps.record, key, progress, deps.now());
  }
}

async function tell(
  deps: Deps,
  hook: WebhookConfig,
  index: number,
  lake: LakeConfig,
  before: Progress,
): Promise<Progress | null> {
  const nowMs = deps.now();
  const run = await lastRun(deps.record, lake.id, ['issued']);
  if (run === undefined) return null;
  const id = `${lake.id}.${run.local_date}.${run.edition}`;
  const issuedMs = run.finished_ms ?? run.started_ms;
  if (id === before.told || nowMs - issuedMs > NEWS_MS) return null;
  const progress = before.trying === id ? before : { ...before, trying: id, attempts: 0, nextMs: 0 };
  if (progress.nextMs > nowMs) return null;
  const key = { lakeId: lake.id, localDate: run.local_date, edition: run.edition };
  const kept = await loadBriefing(deps.record, key);
  if (kept === undefined) return null;
  const news = newsOf(toPage(readArchived(kept.documentJson), wordsFor('en')), kept, deps.config);
  const problem = await post(hook, id, JSON.stringify(news), deps);
  if (problem === null) return { ...NOTHING, told: id };
  const attempts = progress.attempts + 1;
  const wait = WAITS_MS[Math.min(attempts, WAITS_MS.length) - 1] ?? NEWS_MS;
  deps.log.warn({ webhook: index, id, attempts, reason: problem }, 'a webhook was not taken');
  return { ...progress, attempts, nextMs: nowMs + wait };
}

function newsOf(
  document: BriefingPage,
  kept: { lakeId: string; localDate: string; edition: string; issuedMs: number },
  config: Config,
): IssueNews {
  const root = trimEndOf(config.web.baseUrl, '/');
  const page = `${root}/briefings/${encodeURIComponent(kept.lakeId)}/${kept.localDate}/${kept.edition}`;
  return {
    type: 'briefing.issued',
    lake: kept.lakeId,
    date: kept.localDate,
    edition: kept.edition,
    issued: new Date(kept.issuedMs).toISOString(),
    level: document.safety.level,
    subject: expandQuantities(document.subject, 'us'),
    bottomLine: expandQuantities(document.bottomLine, 'us'),
    page,
    data: `${page}/briefing.json`,
  };
}

/** Null when it was taken; else why not, without the address. */
async function post(hook: WebhookConfig, id: string, body: string, deps: Deps): Promise<string | null> {
  const secret = deps.env[hook.secretEnv]?.trim() ?? '';
  if (secret.length < 24)
    return `the environment variable ${hook.secretEnv} holds no secret of 24 characters or more`;
  try {
    const response = await fetch(hook.url, {
      method: 'POST',
      body,
      headers: { ...signedHeaders(id, body, secret, deps.now()) },
      redirect: 'error',
      signal: AbortSignal.timeout(ANSWER_MS),
    });
    await response.body?.cancel();
    return response.ok ? null : `it answered ${response.status}`;
  } catch (error) {
    return error instanceof Error && error.name === 'TimeoutError'
      ? 'it did not answer in time'
      : 'it could not be reached';
  }
}
