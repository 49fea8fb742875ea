/** Proves the way out for mail and the way back by the links in it. */
import { Resolver } from 'node:dns/promises';
import { createServer } from 'node:net';
import type { Config } from '../config/index.ts';
import {
  buildMessage,
  classifyFailure,
  createTransport,
  dnsHints,
  linkMaker,
  linkSecret,
  NOBODY,
  personalise,
  type MailTransport,
  type RenderedMail,
} from '../delivery/index.ts';
import type { PipelineContext } from '../schedule/index.ts';
import { ThawlineError } from '../units/index.ts';
import { addressOf, listenPlace, servePages, webDeps } from './pages.ts';
import type { Finding } from './checkLake.ts';

const ANSWER_MS = 10_000;
/** A name server that is silent for longer is out of reach. */
const NAME_MS = 1500;

/** Signs in, and says what the sender's domain tells receivers. */
export async function mailFindings(config: Config, transport: MailTransport): Promise<Finding[]> {
  const findings: Finding[] = [];
  try {
    await transport.verify();
    findings.push({ ok: true, sentence: `mail: the way out (${config.mail.transport}) works` });
  } catch (error) {
    findings.push({ ok: false, sentence: `mail: ${classifyFailure(error).sentence}` });
  }
  if (config.mail.transport !== 'smtp') return findings;
  const names = new Resolver({ timeout: NAME_MS, tries: 2 });
  // A hint, never a reason to stop: the provider may sign, and a name server may be out of reach.
  for (const { subject, ok, sentence } of await dnsHints(config.mail, (name) => names.resolveTxt(name)))
    findings.push({ ok: true, sentence: `${subject}: ${ok ? '' : 'mind: '}${sentence}` });
  return findings;
}

export function transportOf(config: Config, env: PipelineContext['env']): MailTransport | Finding {
  try {
    return createTransport(config.mail, env);
  } catch (error) {
    if (error instanceof ThawlineError) return { ok: false, sentence: `mail: ${error.message}` };
    throw error;
  }
}

/** Whether the pages can be served where the configuration says. A place that is taken is served by somebody already. */
export async function listenFinding({ web }: Config): Promise<Finding[]> {
  const place = listenPlace(web);
  if (place === null) return [];
  const server = createServer();
  const fault = await new Promise<string | null>((done) => {
    server.once('error', (error) => done('code' in error ? String(error.code) : error.message));
    server.listen(place.port, place.host, () => server.close(() => done(null)));
  });
  return fault === null || fault === 'EADDRINUSE'
    ? []
    : [
        {
          ok: false,
          sentence: `pages: nothing can listen at ${place.host}:${place.port} (${fault}). Correct web.listen: an address of this machine, and a port above 1023 or one that this user may take.`,
        },
      ];
}

/** Opens the one-click link of a mail through `web.baseUrl`; the pages are served for it where nobody serves them yet. */
export async function linkFinding(ctx: PipelineContext): Promise<Finding> {
  const { config, env } = ctx;
  const links = linkMaker(config.web.baseUrl, linkSecret(config, env));
  const url = links.oneClick(NOBODY, Date.now());
  const first = await opened(url);
  if (first === null) return { ok: true, sentence: `links: ${config.web.baseUrl} answers` };
  const place = listenPlace(config.web);
  if (place !== null && first === 'nobody') {
    const served = await servePages(
      webDeps(ctx, () => undefined),
      place,
    ).catch((error: unknown) => {
      if (error instanceof ThawlineError) return null;
      throw error;
    });
    if (served !== null) {
      const second = await opened(url).finally(() => served.close());
      if (second === null)
        return { ok: true, sentence: `links: ${config.web.baseUrl} leads to the pages of thawline run` };
      const where = addressOf({ host: place.host, port: served.port });
      return {
        ok: false,
        sentence: `links: run would serve the pages at ${where}, but ${config.web.baseUrl} does not lead there (${wordsOf(second)}). Correct web.baseUrl, or the proxy before it.`,
      };
    }
  }
  return {
    ok: false,
    sentence: `links: ${config.web.baseUrl} does not answer as the pages do (${wordsOf(first)}), so every link in the mails is dead. Start thawline run or web, and correct web.baseUrl or the proxy.`,
  };
}

type Trouble = 'nobody' | 'other' | number;
const wordsOf = (trouble: Trouble): string =>
  trouble === 'nobody' ? 'nothing there' : trouble === 'other' ? 'another page' : `status ${trouble}`;

/** Null when the link opens the page it should. */
async function opened(url: string): Promise<Trouble | null> {
  try {
    const response = await fetch(url, { redirect: 'manual', signal: AbortSignal.timeout(ANSWER_MS) });
    const text = await response.text();
    if (response.status !== 200) return response.status;
    return text.includes('name="t"') ? null : 'other';
  } catch {
    return 'nobody';
  }
}

const TRIAL =
  'This is a trial. The links at its foot belong to no reader: they open pages that say so. In the mails to readers they work.';

/** The page with the remark that it is a trial before anything else. */
const asTrial = (page: RenderedMail): RenderedMail => ({
  ...page,
  html: page.html.replace(/<body[^<>]*>/, (body) => `${body}<p>${TRIAL}</p>`),
  text: `${TRIAL}\n\n${page.text}`,
});

/** Sends the real page to one address, marked as a trial. @throws ThawlineError `mail` when it does not leave */
export async function sendTrial(
  ctx: PipelineContext,
  transport: MailTransport,
  lakeId: string,
  localDate: string,
  page: RenderedMail,
  to: string,
): Promise<void> {
  const { config, env } = ctx;
  const links = linkMaker(config.web.baseUrl, linkSecret(config, env));
  const nowMs = Date.now();
  const message = buildMessage(personalise(asTrial(page), links.body(NOBODY, lakeId, nowMs)), {
    from: config.mail.from,
    to,
    lakeId,
    localDate,
    edition: 'morning',
    readerId: `trial-${nowMs}`,
    listId: config.mail.listId,
    unsubscribeUrl: links.oneClick(NOBODY, nowMs),
    date: new Date(nowMs),
  });
  try {
    await transport.send({ ...message, subject: `Trial: ${page.subject}` });
  } catch (cause) {
    throw new ThawlineError('mail', `The trial did not leave. ${classifyFailure(cause).sentence}`, { cause });
  }
}
