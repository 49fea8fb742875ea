import { Hono, type Context } from 'hono';
import { html } from 'hono/html';
import type { LakeConfig } from '../config/index.ts';
import { PATHS, permalink } from '../delivery/index.ts';
import {
  type ArchivedBriefing,
  besideBriefing,
  listBriefings,
  loadBriefing,
  type RunKey,
} from '../record/schedule/index.ts';
import { languageOf, readArchived, toPage, wordsFor } from '../words/index.ts';
import { inUnits, renderBriefing } from '../render/index.ts';
import type { UnitSystem } from '../units/index.ts';
import { notFound, show, unitsOf } from './answers.ts';
import { conditionsTable } from './conditionsTable.ts';
import type { WebDeps } from './deps.ts';
import { atomFeed } from './feed.ts';
import { filled } from './filled.ts';
import { lakeFront, monthTable } from './fronts.ts';
import { allWordsOf } from './language.ts';
import type { Markup } from './page.ts';
import { asPublicPage } from './publicPage.ts';
import { wholePages } from './renderings.ts';

const PAGE_SIZE = 40;
const EDITIONS = ['morning', 'amendment', 'evening'] as const;

function conditionsOf(newest: ArchivedBriefing, units: UnitSystem): Markup {
  const document = readArchived(newest.documentJson);
  const words = wordsFor(languageOf(document));
  return conditionsTable(inUnits(toPage(document, words), units), units, words);
}

/** Past briefings as issued: lists, permanent addresses without any reader's token, feed and data. */
export function archivePages(deps: WebDeps): Hono {
  const app = new Hono();
  const pageOf = wholePages(deps);
  const lakeOf = (c: Context): LakeConfig | undefined =>
    deps.config.lakes.find(({ id }) => id === c.req.param('lake'));
  const briefingOf = async (c: Context): Promise<ArchivedBriefing | undefined> => {
    const lake = lakeOf(c);
    const localDate = c.req.param('date') ?? '';
    const edition = EDITIONS.find((known) => known === c.req.param('edition'));
    if (lake === undefined || edition === undefined || !/^\d{4}-\d{2}-\d{2}$/.test(localDate))
      return undefined;
    const key: RunKey = { lakeId: lake.id, localDate, edition };
    return loadBriefing(deps.record, key);
  };

  app.get(PATHS.archive, async (c) => {
    const { archive: w } = allWordsOf(c);
    const items = [];
    for (const lake of deps.config.lakes) {
      const [newest] = await listBriefings(deps.record, lake.id, 1);
      const latest =
        newest === undefined
          ? html`${w.noneYet}`
          : filled(w.newest, html`<a href="${permalink(newest)}">${newest.localDate}</a>`);
      const named = html`<a href="${PATHS.archive}/${lake.id}">${lake.name}</a>`;
      items.push(html`<li>${filled(w.ofLake, named, latest)}</li>`);
    }
    return show(c, {
      title: w.title,
      body: html`<ul class="plain">
        ${items}
      </ul>`,
    });
  });

  app.get(`${PATHS.archive}/:lake`, async (c) => {
    const lake = lakeOf(c);
    if (lake === undefined) return notFound(c);
    const before = /^\d{4}-\d{2}-\d{2}$/.exec(c.req.query('before') ?? '')?.[0];
    const list = await listBriefings(deps.record, lake.id, PAGE_SIZE, before);
    const last = list.at(-1);
    const words = allWordsOf(c);
    const w = words.archive;
    const asked = { units: unitsOf(c), words, nowMs: deps.now() };
    const earlier = html`
      <h2>${w.earlierDays}</h2>
      <p>
        ${w.asIssued} <a href="${PATHS.archive}/${lake.id}/feed.atom">${w.feed}</a>,
        <a href="/lakes/${lake.id}/latest.ics">${w.planAsCalendar}</a>
      </p>
      ${list.length === 0 ? '' : monthTable(list, unitsOf(c), words)}
      ${list.length === 0 ? html`<p>${w.none}</p>` : ''}
      ${
        list.length === PAGE_SIZE && last !== undefined
          ? html`<p><a href="?before=${last.localDate}">${w.older}</a></p>`
          : ''
      }
    `;
    const feed = `${PATHS.archive}/${lake.id}/feed.atom`;
    if (before !== undefined) return show(c, { title: lake.name, body: earlier, feed });
    const evidence = list[0] === undefined ? '' : conditionsOf(list[0], unitsOf(c));
    const body = html`<div class="sides">
      <div>${lakeFront(lake, list[0], asked, 'itself')}</div>
      <div>${evidence}${earlier}</div>
    </div>`;
    return show(c, { title: lake.name, body, feed, wide: true, strip: true });
  });

  app.get(`${PATHS.archive}/:lake/feed.atom`, async (c) => {
    const lake = lakeOf(c);
    if (lake === undefined) return notFound(c);
    const list = await listBriefings(deps.record, lake.id, 30);
    c.header('Content-Type', 'application/atom+xml; charset=utf-8');
    return c.body(atomFeed(lake, list, deps.config.web.baseUrl, unitsOf(c)));
  });

  app.get(`${PATHS.archive}/:lake/:date`, (c) =>
    c.redirect(
      `${PATHS.archive}/${encodeURIComponent(c.req.param('lake'))}/${encodeURIComponent(c.req.param('date'))}/morning`,
    ),
  );

  app.get(`${PATHS.archive}/:lake/:date/:edition`, async (c) => {
    const briefing = await briefingOf(c);
    if (briefing === undefined) return notFound(c);
    const units = unitsOf(c);
    const page = await pageOf(briefing, units);
    const beside = await besideBriefing(deps.record, briefing);
    return c.html(
      await asPublicPage(page, {
        ...briefing,
        path: permalink(briefing),
        units,
        before: beside.before && permalink(beside.before),
        after: beside.after && permalink(beside.after),
        words: allWordsOf(c),
      }),
    );
  });

  app.get(`${PATHS.archive}/:lake/:date/:edition/briefing.json`, async (c) => {
    const briefing = await briefingOf(c);
    if (briefing === undefined) return notFound(c);
    c.header('Content-Type', 'application/json; charset=utf-8');
    const document = readArchived(briefing.documentJson);
    const { json } = await renderBriefing(document, { units: unitsOf(c), form: 'short' });
    return c.body(json);
  });

  app.get(`${PATHS.archive}/:lake/:date/:edition/:units/:file`, async (c) => {
    const briefing = await briefingOf(c);
    if (briefing === undefined) return notFound(c);
    const units = c.req.param('units') === 'metric' ? 'metric' : 'us';
    const { attachments } = await pageOf(briefing, units);
    const found = attachments.find(({ filename }) => filename === c.req.param('file'));
    if (found === undefined) return notFound(c);
    c.header('Cache-Control', 'public, max-age=86400, immutable');
    return c.body(new Uint8Array(found.content), 200, { 'content-type': found.contentType });
  });
  return app;
}
