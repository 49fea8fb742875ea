/** For the operator alone: a threshold tried on past mornings, and the line to paste. The file is never edited here. */
import { Hono } from 'hono';
import { html } from 'hono/html';
import { tunableNumbers, tuneRules } from '../config/tune.ts';
import { PATHS, readToken } from '../delivery/index.ts';
import { countWords } from '../schedule/replay/seasonCompare.ts';
import { trialSeasons, tryOn, type Trial } from '../schedule/replay/trial.ts';
import { ThawlineError } from '../units/index.ts';
import { showPrivate, showProblem } from './answers.ts';
import type { WebDeps } from './deps.ts';
import type { Markup } from './page.ts';

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
    const page = (body: Markup | string, status: 200 | 400 | 503 = 200) =>
      showPrivate(
        c,
        {
          title: 'Try a threshold',
          body: html`${form(deps, numbers, { token, id, written, lakeId, spring })}${body}`,
        },
        status,
      );
    if (id === '') return page('');
    const lake = deps.config.lakes.find((one) => one.id === lakeId);
    const value = Number(written);
    if (lake === undefined || !numbers.has(id) || written === '' || !Number.isFinite(value)) {
      const words =
        lake === undefined
          ? 'There is no such lake.'
          : !numbers.has(id)
            ? `"${id}" leads to no number in the rules; take one from the list.`
            : `"${written}" is no number. Give it in SI units with a decimal point, as in the rules: °C, m, m/s, mm.`;
      return page(html`<p class="warning" role="alert">${words}</p>`, 400);
    }
    if (busy)
      return page(
        html`<p class="warning" role="alert">Another trial is under way. Ask again in a moment.</p>`,
        503,
      );
    busy = true;
    try {
      const books = [deps.rules, tuneRules(deps.rules, { [id]: value })] as const;
      const ctx = { config: deps.config, record: deps.record, rules: deps.rules, env: {} };
      const trials: Trial[] = [];
      // A spring is 120 mornings made twice, some half a minute: only when asked for.
      const seasons = trialSeasons(lake, deps.now()).slice(0, spring ? 2 : 1);
      for (const season of seasons) trials.push(await tryOn(ctx, lake, season, books));
      return await page(html`
        ${trials.map((trial, i) => trialBody(i === 0 ? 'The last 30 days' : 'The last spring', trial))}
        <h2>To keep it</h2>
        <p>Put this into the configuration, then <code>thawline reload</code>. Nothing was changed here.</p>
        <pre>
thresholds:
  ${id}: ${String(value)} # was ${String(numbers.get(id))}</pre>
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
): Markup {
  const now = numbers.get(id);
  return html`
    <p class="note">
      This page is for the operator. It makes past mornings from the record twice, with the rules as they are
      and with one number changed, and shows the days on which they differ.
    </p>
    <form method="get" action="${PATHS.tune}">
      <input type="hidden" name="t" value="${token}" />
      <p>
        <label for="lake">Lake</label>
        <select id="lake" name="lake">
          ${deps.config.lakes.map(
            (lake) =>
              html`<option value="${lake.id}" ${lake.id === lakeId ? 'selected' : ''}>${lake.name}</option>`,
          )}
        </select>
      </p>
      <p>
        <label for="id">Number of the rules</label>
        <input id="id" name="id" list="numbers" value="${id}" size="50" autocomplete="off" required />
        <datalist id="numbers">
          ${[...numbers].map(([key, value]) => html`<option value="${key}">${String(value)}</option>`)}
        </datalist>
      </p>
      <p>
        <label for="value">New value${now === undefined ? '' : `, now ${String(now)}`}</label>
        <input id="value" name="value" inputmode="decimal" value="${written}" required />
      </p>
      <p>
        <label
          ><input type="checkbox" name="spring" ${spring ? 'checked' : ''} /> The last spring too (half a
          minute)</label
        >
      </p>
      <button>Try it</button>
    </form>
  `;
}

function trialBody(title: string, { season, mornings, differences }: Trial): Markup {
  const span = `${season.from} to ${season.to}`;
  if (mornings === 0)
    return html`<h2>${title}</h2>
      <p>The record knows no morning of ${span}. <code>thawline replay</code> fetches the past once.</p>`;
  return html`<h2>${title}</h2>
    <p>${differences.length} of ${mornings} mornings from ${span} differ: ${countWords(differences)}.</p>
    ${
      differences.length === 0
        ? ''
        : html`<table>
            <thead>
              <tr>
                <th scope="col">Day</th>
                <th scope="col">What</th>
                <th scope="col">Before</th>
                <th scope="col">After</th>
                <th scope="col">Moved by</th>
              </tr>
            </thead>
            <tbody>
              ${differences.slice(0, MOST_DAYS).flatMap(({ date, items }) =>
                items.map(
                  ({ what, before, after, movedBy }) =>
                    html`<tr>
                      <th scope="row">${date}</th>
                      <td>${what}</td>
                      <td>${before}</td>
                      <td>${after}</td>
                      <td>${movedBy}</td>
                    </tr>`,
                ),
              )}
            </tbody>
          </table>`
    }
    ${differences.length > MOST_DAYS ? html`<p class="note">The first ${MOST_DAYS} days are shown; <code>thawline compare</code> writes all.</p>` : ''}`;
}
