/** A reader's own outings behind the link of a letter they asked for: to look at, to take along, to take back. */
import { Hono } from 'hono';
import { html } from 'hono/html';
import { PATHS, peekLink } from '../delivery/index.ts';
import { outingsCsv, outingsJson } from '../outings/index.ts';
import { outingsOf, removeOuting, type Outing } from '../record/index.ts';
import { outingReport } from '../schedule/outings/index.ts';
import { outingParts } from '../words/index.ts';
import { showPrivate, showProblem } from './answers.ts';
import type { WebDeps } from './deps.ts';
import { filled } from './filled.ts';
import { field } from './forms.ts';
import { allWordsTo } from './language.ts';
import { namesIn } from './names.ts';
import type { Markup } from './page.ts';

/** A page of them is shown, the newest first; the files hold all. */
const SHOWN = 60;

export function ownOutingPages(deps: WebDeps): Hono {
  const app = new Hono();
  const context = () => ({ nowMs: deps.now(), secret: deps.secret });
  app.get(PATHS.ownOutings, async (c) => {
    const token = c.req.query('t') ?? '';
    const found = await peekLink(deps.record, token, 'own-outings', context());
    if (!found.ok) return showProblem(c, found.problem);
    const all = await outingsOf(deps.record, { readerId: found.value.id });
    const t = encodeURIComponent(token);
    const words = allWordsTo(c, found.value);
    const w = words.outingPage.own;
    const names = namesIn(words, deps.rules);
    const where = ({ places }: Outing): string =>
      places.map(({ kind, name }) => name ?? names.place(kind)).join(', ') || w.noPlace;
    const fileLink = (end: string): Markup =>
      html`<a href="${PATHS.ownOutings}.${end}?t=${t}">${end.toUpperCase()}</a>`;
    const lakes = deps.config.lakes.filter(({ id }) => all.some(({ lake }) => lake === id));
    const said = [];
    for (const lake of lakes) {
      const report = await outingReport(deps.record, lake.id, { readerId: found.value.id });
      said.push(
        html`<h2>${lake.name}</h2>
          ${outingParts(report, 'own', words, names).map(
            ({ heading, lines }) =>
              html`<h3>${heading}</h3>
                <ul>
                  ${lines.map((line) => html`<li>${line}</li>`)}
                </ul>`,
          )}`,
      );
    }
    return showPrivate(c, {
      title: w.title,
      body: html`
        <p>
          ${all.length === 0 ? w.none : filled((csv = '', json = '') => w.take(csv, json, all.length), fileLink('csv'), fileLink('json'))}
        </p>
        ${said} ${all.length === 0 ? '' : html`<h2>${w.oneByOne}</h2>`}
        <ul class="plain">
          ${all
            .slice(-SHOWN)
            .reverse()
            .map(
              (one) =>
                html`<li>
                  ${w.line(one.date, one.hours.toFixed(1), one.fish, where(one), one.shared)}
                  <form method="post" action="${PATHS.ownOutings}">
                    <input type="hidden" name="t" value="${token}" />
                    <input type="hidden" name="id" value="${one.id}" />
                    <button class="quiet" aria-label="${w.backOf(one.date, where(one))}">${w.back}</button>
                  </form>
                </li>`,
            )}
        </ul>
      `,
    });
  });

  for (const [end, type, write] of [
    ['csv', 'text/csv; charset=utf-8', outingsCsv],
    ['json', 'application/json; charset=utf-8', outingsJson],
  ] as const)
    app.get(`${PATHS.ownOutings}.${end}`, async (c) => {
      const found = await peekLink(deps.record, c.req.query('t') ?? '', 'own-outings', context());
      if (!found.ok) return showProblem(c, found.problem);
      c.header('Cache-Control', 'no-store');
      c.header('Content-Disposition', `attachment; filename="outings.${end}"`);
      const all = await outingsOf(deps.record, { readerId: found.value.id });
      return c.body(write(all), 200, { 'content-type': type });
    });

  app.post(PATHS.ownOutings, async (c) => {
    const data = await c.req.formData();
    const token = field(data, 't');
    const found = await peekLink(deps.record, token, 'own-outings', context());
    if (!found.ok) return showProblem(c, found.problem);
    await removeOuting(deps.record, field(data, 'id'), found.value.id);
    return c.redirect(`${PATHS.ownOutings}?t=${encodeURIComponent(token)}`, 303);
  });
  return app;
}
