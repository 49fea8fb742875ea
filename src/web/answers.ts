import type { Context } from 'hono';
import { html } from 'hono/html';
import type { LinkProblem } from '../delivery/index.ts';
import type { UnitSystem } from '../units/index.ts';
import { wordsOf } from './language.ts';
import { shell, type Markup, type Page } from './page.ts';

type Answer = Response | Promise<Response>;

/** Units a visitor asked for: `?units=metric`. */
export const unitsOf = (c: Context): UnitSystem => (c.req.query('units') === 'metric' ? 'metric' : 'us');

export const show = (c: Context, page: Page, status: 200 | 400 | 404 | 410 | 500 | 503 = 200): Answer =>
  c.html(shell(page, c.get('words')), status);

/** A page that a private link leads to: kept by no cache, found by no search engine. */
export function showPrivate(c: Context, page: Page, status: 200 | 400 | 410 | 503 = 200): Answer {
  c.header('Cache-Control', 'no-store');
  c.header('X-Robots-Tag', 'noindex');
  return show(c, page, status);
}

export function showProblem(c: Context, problem: LinkProblem): Answer {
  const { link } = wordsOf(c);
  const body: Markup = html`<p>${link[problem]}</p>
    <p><a href="/subscribe">${link.anew}</a></p>`;
  return showPrivate(c, { title: link.title, body }, problem === 'forged' ? 400 : 410);
}

export function notFound(c: Context): Answer {
  const { notFound: words } = wordsOf(c);
  const body = html`<p>${words.body} <a href="/briefings">${words.all}</a></p>`;
  return show(c, { title: words.title, body }, 404);
}
