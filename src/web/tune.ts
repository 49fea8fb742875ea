/** For the operator alone: a threshold tried on past mornings, and the line to paste. The file is never edited here. */
import { Hono } from 'hono';
import { html } from 'hono/html';
import { tunableNumbers, tuneRules } from '../config/index.ts';
import { countDifferences, type Trial, trialSeasons, tryOn } from '../schedule/replay/index.ts';
import { PATHS, readToken } from '../delivery/index.ts';
import { ThawlineError } from '../units/index.ts';
import type { Words } from '../words/index.ts';
import { showPrivate, showProblem } from './answers.ts';
import type { WebDeps } from './deps.ts';
import { filled } from './filled.ts';
import { allWordsOf } from './language.ts';
import type { Markup } from './page.ts';

type TuneWords = Words['tune'];

/** A page of days is read, not more. */
const MOST_DAYS = 40;

export function tunePages(deps: WebDeps): Hono {
  const app = new Hono();
  // Replaying a spring takes seconds: one at a time, so that a page of the public is not held up by two.
  let busy = false;

  app.get(PATHS.tune, async (c) => {
    const token = c.req.query('t') ?? '';
    const read = readToken(token, 'tune', deps.now(), deps.secret);
    if (!read.ok) return showProblem(c, read.problem);
    const numbers = tunableNumbers(deps.rules);
    const id = (c.req.query('id') ?? '').trim();
    const written = (c.req.query('value') ?? '').trim();
    const spring = c.req.query('spring') === 'on';
    const lakeId = c.req.query('lake') ?? deps.config.lakes[0]?.id ?? '';
    const w = allWordsOf(c).tune;
    const page = (body: Markup | string, status: 200 | 400 | 503 = 200) =>
      showPrivate(
        c,
        {
          title: w.title,
          body: html`${form(deps, numbers, { token, id, written, lakeId, spring }, w)}${body}`,
        },
        status,
      );
    if (id === '') return page('');
    const lake = deps.config.lakes.find((one) => one.id === lakeId);
    const value = Number(written);
    if (lake === undefined || !numbers.has(id) || written === '' || !Number.isFinite(value)) {
      const said = lake === undefined ? w.noLake : !numbers.has(id) ? w.noNumber(id) : w.notNumber(written);
      return page(html`<p class="warning" role="alert">${said}</p>`, 400);
    }
    if (busy) return page(html`<p class="warning" role="alert">${w.busy}</p>`, 503);
    busy = true;
    try {
      const books = [deps.rules, tuneRules(deps.rules, { [id]: value })] as const;
      const ctx = { config: deps.config, record: deps.record, rules: deps.rules, env: {} };
      const trials: Trial[] = [];
      // A spring is 120 mornings made twice, some half a minute: only when asked for.
      const seasons = trialSeasons(lake, deps.now()).slice(0, spring ? 2 : 1);
      for (const season of seasons) trials.push(await tryOn(ctx, lake, season, books));
      return await page(html`
        ${trials.map((trial, i) => trialBody(i === 0 ? w.lastDays : w.lastSpring, trial, w))}
        <h2>${w.keepTitle}</h2>
        <p>${filled(w.keep, html`<code>thawline reload</code>`)}</p>
        <pre>
thresholds:
  ${id}: ${String(value)} # ${w.was(String(numbers.get(id)))}</pre>
      `);
    } catch (error) {
      if (!(error instanceof ThawlineError) || error.code !== 'config') throw error;
      return await page(html`<p class="warning" role="alert">${error.message}</p>`, 400);
    } finally {
      busy = false;
    }
  });
  return app;
}

function form(
  deps: WebDeps,
  numbers: ReadonlyMap<string, number>,
  {
    token,
    id,
    written,
    lakeId,
    spring,
  }: { token: string; id: string; written: string; lakeId: string; spring: boolean },
  w: TuneWords,
): Markup {
  const now = numbers.get(id);
  return html`
    <p class="note">${w.note}</p>
    <form method="get" action="${PATHS.tune}">
      <input type="hidden" name="t" value="${token}" />
      <p>
        <label for="lake">${w.lake}</label>
        <select id="lake" name="lake">
          ${deps.config.lakes.map(
            (lake) =>
              html`<option value="${lake.id}" ${lake.id === lakeId ? 'selected' : ''}>${lake.name}</option>`,
          )}
        </select>
      </p>
      <p>
        <label for="id">${w.number}</label>
        <input id="id" name="id" list="numbers" value="${id}" size="50" autocomplete="off" required />
        <datalist id="numbers">
          ${[...numbers].map(([key, value]) => html`<option value="${key}">${String(value)}</option>`)}
        </datalist>
      </p>
      <p>
        <label for="value">${w.value(now === undefined ? null : String(now))}</label>
        <input id="value" name="value" inputmode="decimal" value="${written}" required />
      </p>
      <p>
        <label><input type="checkbox" name="spring" ${spring ? 'checked' : ''} /> ${w.spring}</label>
      </p>
      <button>${w.tryIt}</button>
    </form>
  `;
}

function trialBody(title: string, { season, mornings, differences }: Trial, w: TuneWords): Markup {
  const span = w.span(season.from, season.to);
  const counts = countDifferences(differences).map(([what, n]) => w.count(w.what[what], n));
  if (mornings === 0)
    return html`<h2>${title}</h2>
      <p>${filled((command = '') => w.none(span, command), html`<code>thawline replay</code>`)}</p>`;
  return html`<h2>${title}</h2>
    <p>${w.differ(differences.length, mornings, span, counts.join(', '))}</p>
    ${
      differences.length === 0
        ? ''
        : html`<table>
            <thead>
              <tr>
                <th scope="col">${w.columns.day}</th>
                <th scope="col">${w.columns.what}</th>
                <th scope="col">${w.columns.before}</th>
                <th scope="col">${w.columns.after}</th>
                <th scope="col">${w.columns.movedBy}</th>
              </tr>
            </thead>
            <tbody>
              ${differences.slice(0, MOST_DAYS).flatMap(({ date, items }) =>
                items.map(
                  ({ what, before, after, movedBy }) =>
                    html`<tr>
                      <th scope="row">${date}</th>
                      <td>${w.what[what]}</td>
                      <td><code>${before}</code></td>
                      <td><code>${after}</code></td>
                      <td>${movedBy === 'first place' ? w.what[movedBy] : html`<code>${movedBy}</code>`}</td>
                    </tr>`,
                ),
              )}
            </tbody>
          </table>`
    }
    ${differences.length > MOST_DAYS ? html`<p class="note">${filled((command = '') => w.first(MOST_DAYS, command), html`<code>thawline compare</code>`)}</p>` : ''}`;
}
