/** The map of a lake by the hour: a slider that works by keyboard, and every hour in words for who cannot see it. */
import { Hono } from 'hono';
import { html, raw } from 'hono/html';
import { permalink } from '../delivery/index.ts';
import { listBriefings } from '../record/schedule/index.ts';
import { inUnits, mapFigure, mapHourLines } from '../render/index.ts';
import { languageOf, readArchived, toPage, wordsFor } from '../words/index.ts';
import { notFound, show, unitsOf } from './answers.ts';
import type { WebDeps } from './deps.ts';

/** Address of the map of a lake. */
export const mapPath = (lakeId: string): string => `/lakes/${encodeURIComponent(lakeId)}/map`;

/** `/lakes/<id>/map?hour=3&units=metric`: the newest issue's map; the hour counts from the first one of the light. */
export function mapPages(deps: WebDeps): Hono {
  const app = new Hono();
  app.get('/lakes/:lake/map', async (c) => {
    const lake = deps.config.lakes.find(({ id }) => id === c.req.param('lake'));
    const [newest] = lake === undefined ? [] : await listBriefings(deps.record, lake.id, 1);
    if (lake === undefined || newest === undefined) return notFound(c);
    const document = readArchived(newest.documentJson);
    const words = wordsFor(languageOf(document));
    const w = words.lake.map;
    const units = unitsOf(c);
    const page = inUnits(toPage(document, words), units);
    const lines = mapHourLines(page, units, words);
    const asked = Number(c.req.query('hour') ?? NaN);
    const first = mapFigure(page, units, words);
    const index = Number.isInteger(asked) && asked >= 0 && asked < lines.length ? asked : null;
    const chosen = index === null ? undefined : lines[index];
    const figure = chosen === undefined ? first : mapFigure(page, units, words, chosen.atMs);
    const back = html`<p><a href="${permalink(newest)}">${words.archive.front.whole}</a></p>`;
    const title = w.hourTitle(lake.name);
    if (figure === null || lines.length === 0)
      return show(c, {
        title,
        body: html`<p>${w.none}</p>
          ${back}`,
      });
    const at = index ?? Math.floor(lines.length / 2);
    const body = html`
      <div id="map">${raw(figure.svg)}</div>
      <form method="get" data-map>
        ${units === 'metric' ? html`<input type="hidden" name="units" value="metric" />` : ''}
        <label for="hour">${w.hour}</label>
        <input type="range" id="hour" name="hour" min="0" max="${lines.length - 1}" step="1" value="${at}" />
        <button type="submit">${w.show}</button>
      </form>
      <h2>${w.list}</h2>
      <div id="hours">
        <ol class="plain hours">
          ${lines.map(({ words: line }, i) => (i === index ? html`<li aria-current="true">${line}</li>` : html`<li>${line}</li>`))}
        </ol>
      </div>
      <ul class="plain">
        ${[...(page.lakeWaves === undefined ? [] : [page.lakeWaves]), ...(page.lakeToday ?? [])].map((line) => html`<li>${line}</li>`)}
      </ul>
      <p class="note">${w.caution}</p>
      ${back}
    `;
    return show(c, { title, body, map: true });
  });
  return app;
}
