import type { Context } from 'hono';
import { html } from 'hono/html';
import type { LinkProblem } from '../delivery/index.ts';
import type { UnitSystem } from '../units/index.ts';
import { shell, type Markup, type Page } from './page.ts';

type Answer = Response | Promise<Response>;

/** Units a visitor asked for: `?units=metric`. */
export const unitsOf = (c: Context): UnitSystem => (c.req.query('units') === 'metric' ? 'metric' : 'us');

export const show = (c: Context, page: Page, status: 200 | 400 | 404 | 410 | 500 | 503 = 200): Answer =>
  c.html(shell(page), status);

/** A page that a private link leads to: kept by no cache, found by no search engine. */
export function showPrivate(c: Context, page: Page, status: 200 | 400 | 410 | 503 = 200): Answer {
  c.header('Cache-Control', 'no-store');
  c.header('X-Robots-Tag', 'noindex');
  return show(c, page, status);
}

const PROBLEM: Readonly<Record<LinkProblem, string>> = {
  forged: 'This link is not complete. Open it from the mail again, or copy all of it.',
  'wrong-purpose': 'This link is meant for another page. Open it from the mail again.',
  expired: 'This link is too old. The newest mail has a fresh one.',
  revoked: 'This link no longer works: it was used already, or what it belonged to has changed since.',
};

export function showProblem(c: Context, problem: LinkProblem): Answer {
  const body: Markup = html`<p>${PROBLEM[problem]}</p>
    <p><a href="/subscribe">Ask for the briefing anew</a></p>`;
  return showPrivate(c, { title: 'This link does not work', body }, problem === 'forged' ? 400 : 410);
}

export const notFound = (c: Context): Answer =>
  show(
    c,
    {
      title: 'Nothing here',
      body: html`<p>There is no such page. <a href="/briefings">All briefings</a></p>`,
    },
    404,
  );
