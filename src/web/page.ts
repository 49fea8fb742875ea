import { html } from 'hono/html';
import type { Words } from '../words/index.ts';

export type Markup = ReturnType<typeof html>;

export interface Page {
  readonly title: string;
  readonly body: Markup;
  /** Feed of the page's lake, for readers of feeds. */
  readonly feed?: string;
  /** The small script for the what-if page, with what it says; everything works without it. */
  readonly live?: Words['whatIf']['script'];
  /** The small script for the map by the hour. */
  readonly map?: boolean;
  /** The small script that keeps the present hour of the day's strip marked. */
  readonly strip?: boolean;
  /** The script that keeps an outing while there is no signal, with what it says; the form works without it. */
  readonly outing?: Words['outingPage']['script'];
  /** Uses the width of a wide screen. */
  readonly wide?: boolean;
}

/** A script is one file for all languages; what it says comes with the page. */
const scriptThatSays = (src: string, words: Readonly<Record<string, string>>): Markup =>
  html`<script src="${src}" data-words="${JSON.stringify(words)}" defer></script>`;

/** What stands above every page: the way past it, the name and the other pages. */
export const pageHead = ({ frame }: Words['web']): Markup => html`
  <a class="skip" href="#content">${frame.toContent}</a>
  <header>
    <p class="kicker"><a href="/">Thawline</a></p>
    <nav aria-label="${frame.pages}">
      <a href="/briefings">${frame.briefings}</a> <a href="/what-if">${frame.whatIf}</a>
      <a href="/subscribe">${frame.byMail}</a>
    </nav>
  </header>
`;

/** One column, the look of the mail; every value put into a page is escaped by the template. */
export function shell(
  { title, body, feed, live, map, strip, outing, wide }: Page,
  { web, page: { language } }: Words,
): Markup {
  return html`<!doctype html>
    <html lang="${language}">
      <head>
        <meta charset="utf-8" />
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <title>${title} · Thawline</title>
        <link rel="stylesheet" href="/style.css" />
        <link rel="icon" href="data:," />
        ${
          feed === undefined
            ? ''
            : html`<link rel="alternate" type="application/atom+xml" title="${title}" href="${feed}" />`
        }
        ${live === undefined ? '' : scriptThatSays('/live.js', live)}
        ${map === true ? html`<script src="/map.js" defer></script>` : ''}
        ${strip === true ? html`<script src="/strip.js" defer></script>` : ''}
        ${outing === undefined ? '' : scriptThatSays('/outing.js', outing)}
      </head>
      <body class="${wide === true ? 'wide' : ''}">
        ${pageHead(web)}
        <main id="content" tabindex="-1">
          <h1>${title}</h1>
          ${body}
        </main>
        <footer>
          <p>${web.frame.caution}</p>
        </footer>
      </body>
    </html>`;
}
