import { Hono, type Context } from 'hono';
import { matchedRoutes } from 'hono/route';
import { html } from 'hono/html';
import { allWordsOf, inOneLanguage, wordsOf } from './language.ts';
import { HTTPException } from 'hono/http-exception';
import { PATHS } from '../delivery/index.ts';
import { isServerRecord } from '../record/index.ts';
import { listBriefings } from '../record/schedule/index.ts';
import { notFound, show, unitsOf } from './answers.ts';
import { evidencePages } from './evidence.ts';
import { lakeFront } from './fronts.ts';
import { archivePages } from './archive.ts';
import { bouncePages } from './bounces.ts';
import type { WebDeps } from './deps.ts';
import { headers, knownMethods, limitedBody, limitedRate, ownForms } from './guard.ts';
import { healthPage } from './health.ts';
import { metricsPage } from './metrics.ts';
import { latestPages } from './latest.ts';
import { mapPages } from './lakeMap.ts';
import { leavePages } from './leave.ts';
import { outingPages } from './outing.ts';
import { readingPages } from './reading.ts';
import { ownOutingPages } from './ownOutings.ts';
import { settingsPages } from './settings.ts';
import { BRIEFING_STYLE, LIVE_SCRIPT, MAP_SCRIPT, STRIP_SCRIPT, STYLE_SHEET } from './style.ts';
import { subscribePages } from './subscribe.ts';
import { tunePages } from './tune.ts';
import { whatIfPages } from './whatIf.ts';

/** Method and pattern of what was asked for: an address itself may hold a token. */
function pageOf(c: Context): string {
  return `${c.req.method} ${matchedRoutes(c).findLast(({ path }) => !path.includes('*'))?.path ?? '*'}`;
}

/**
 * All pages as one application, without a port: subscribe, confirm, settings, leave, archive, what-if, health,
 * and the address that takes bounce reports.
 * No cookies; what a link may do is signed into it; a GET changes nothing.
 */
export function createWebApp(deps: WebDeps): Hono {
  const app = new Hono();
  app.use('*', inOneLanguage(deps.config.lakes));
  app.use('*', headers());
  app.use(
    '*',
    limitedRate(
      deps.now,
      deps.config.web.trustProxy,
      isServerRecord(deps.config.recordPath) ? deps : undefined,
    ),
  );
  app.use('*', knownMethods(app));
  app.use('*', limitedBody());
  app.use('*', ownForms(deps.config.web.baseUrl, deps.listensAt ?? (() => [])));
  for (const [path, sheet] of [
    ['/style.css', STYLE_SHEET],
    ['/briefing.css', BRIEFING_STYLE],
  ] as const)
    app.get(path, (c) => c.body(sheet, 200, { 'content-type': 'text/css; charset=utf-8' }));
  for (const [path, script] of [
    ['/live.js', LIVE_SCRIPT],
    ['/map.js', MAP_SCRIPT],
    ['/strip.js', STRIP_SCRIPT],
  ] as const)
    app.get(path, (c) => c.body(script, 200, { 'content-type': 'text/javascript; charset=utf-8' }));
  app.get('/', async (c) => {
    const newest = await Promise.all(
      deps.config.lakes.map(async ({ id }) => (await listBriefings(deps.record, id, 1))[0]),
    );
    const words = allWordsOf(c);
    const { home } = words.archive;
    const asked = { units: unitsOf(c), words, nowMs: deps.now() };
    return show(c, {
      title: home.title,
      // One front alone would leave half of it empty.
      wide: deps.config.lakes.length > 1,
      body: html`
        <div class="fronts">
          ${deps.config.lakes.map((lake, i) => lakeFront(lake, newest[i], asked, 'lakes'))}
        </div>
        <p><a href="${PATHS.subscribe}">${home.byMail}</a></p>
        <p><a href="/what-if">${home.whatIf}</a></p>
        <p><a href="/evidence">${home.evidence}</a></p>
      `,
    });
  });
  for (const pages of [
    subscribePages,
    settingsPages,
    outingPages,
    readingPages,
    ownOutingPages,
    leavePages,
    archivePages,
    latestPages,
    mapPages,
    whatIfPages,
    tunePages,
    evidencePages,
    healthPage,
    metricsPage,
    bouncePages,
  ])
    app.route('/', pages(deps));
  app.notFound((c) => notFound(c));
  app.onError((error, c) => {
    if (error instanceof HTTPException)
      return error.status === 403 ? c.text(wordsOf(c).plain.foreignForm, 403) : error.getResponse();
    // A form that cannot be parsed is the sender's fault, not ours.
    if (c.req.method === 'POST' && error instanceof TypeError)
      return c.text(wordsOf(c).plain.formUnread, 400);
    deps.onFault?.(error, pageOf(c));
    const { fault } = wordsOf(c);
    return show(c, { title: fault.title, body: html`<p>${fault.body}</p>` }, 500);
  });
  return app;
}
