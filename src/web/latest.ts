/** Addresses that stay: the newest issue of a lake as data, text, feed, calendar and picture, for other programs to fetch. */
import { createHash } from 'node:crypto';
import { Hono, type Context } from 'hono';
import type { LakeConfig } from '../config/index.ts';
import { permalink } from '../delivery/index.ts';
import { type ArchivedBriefing, listBriefings } from '../record/schedule/index.ts';
import { inUnits } from '../render/index.ts';
import { languageOf, readArchived, toPage, twinJson, wordsFor, type KeptDocument } from '../words/index.ts';
import { trimEndOf, type UnitSystem } from '../units/index.ts';
import type { WebDeps } from './deps.ts';
import { unitsOf } from './answers.ts';
import { atomFeed } from './feed.ts';
import { allWordsOf } from './language.ts';
import { wholePages } from './renderings.ts';

/** Facts and sentences, as they are sent to programs. */
const twinOf = (document: KeptDocument, units: UnitSystem): string =>
  twinJson(document, inUnits(toPage(document, wordsFor(languageOf(document))), units));

/** As long as a reverse proxy may keep an answer, s: an issue comes once a morning, an amendment should be seen soon. */
const MAX_AGE_S = 60;
const FEED_ENTRIES = 30;

interface Newest {
  readonly lake: LakeConfig;
  readonly briefing: ArchivedBriefing;
}

/**
 * `/lakes/<id>/latest.json`, `.txt`, `.atom`, `.ics`, `.png`; `?units=metric` for the units of text, sentences and picture. With
 * an entity tag, so that who asks every minute is answered "not changed".
 */
export function latestPages(deps: WebDeps): Hono {
  const app = new Hono();
  const pageOf = wholePages(deps);

  const answer = async (
    c: Context,
    type: string,
    bodyOf: (newest: Newest, units: UnitSystem) => Promise<string | Uint8Array<ArrayBuffer> | undefined>,
  ): Promise<Response> => {
    const lake = deps.config.lakes.find(({ id }) => id === c.req.param('lake'));
    const [briefing] = lake === undefined ? [] : await listBriefings(deps.record, lake.id, 1);
    const { latest: w } = allWordsOf(c).archive;
    if (lake === undefined || briefing === undefined)
      return c.text(`${lake === undefined ? w.noLake : w.nothing}\n`, 404);
    // A program that misspells its units must not go on with the other ones.
    if (!['us', 'metric', undefined].includes(c.req.query('units'))) return c.text(`${w.noUnits}\n`, 400);
    const units = unitsOf(c);
    const key = [briefing.lakeId, briefing.localDate, briefing.edition, briefing.issuedMs, units, type];
    const tag = `"${createHash('sha256').update(JSON.stringify(key)).digest('hex').slice(0, 24)}"`;
    c.header('Cache-Control', `public, max-age=${MAX_AGE_S}`);
    c.header('ETag', tag);
    c.header('Last-Modified', new Date(briefing.issuedMs).toUTCString());
    // Pages of others may read it: it is public, and holds nothing of any reader.
    c.header('Access-Control-Allow-Origin', '*');
    if (c.req.header('if-none-match')?.includes(tag) === true) return c.body(null, 304);
    const body = await bodyOf({ lake, briefing }, units);
    if (body === undefined) return c.text(`${w.noPicture}\n`, 404);
    return c.body(body, 200, { 'content-type': type });
  };

  app.get('/lakes/:lake/latest.json', (c) =>
    answer(c, 'application/json; charset=utf-8', ({ briefing }, units) =>
      Promise.resolve(twinOf(readArchived(briefing.documentJson), units)),
    ),
  );
  app.get('/lakes/:lake/latest.txt', (c) =>
    answer(
      c,
      'text/plain; charset=utf-8',
      async ({ briefing }, units) => (await pageOf(briefing, units)).text,
    ),
  );
  app.get('/lakes/:lake/latest.atom', (c) =>
    answer(c, 'application/atom+xml; charset=utf-8', async ({ lake }, units) =>
      atomFeed(lake, await listBriefings(deps.record, lake.id, FEED_ENTRIES), deps.config.web.baseUrl, units),
    ),
  );
  app.get('/lakes/:lake/latest.ics', (c) =>
    answer(c, 'text/calendar; charset=utf-8', async ({ lake, briefing }, units) => {
      const { planCalendar } = await import('./planCalendar.ts');
      const document = readArchived(briefing.documentJson);
      const words = wordsFor(languageOf(document));
      const page = inUnits(toPage(document, words), units);
      const address = trimEndOf(deps.config.web.baseUrl, '/') + permalink(briefing);
      return planCalendar({ ...page, lake: { ...page.lake, id: lake.id } }, words, address);
    }),
  );
  app.get('/lakes/:lake/latest.png', (c) =>
    answer(c, 'image/png', async ({ briefing }, units) => {
      const { attachments } = await pageOf(briefing, units);
      const picture = attachments.find(({ contentType }) => contentType === 'image/png');
      return picture === undefined ? undefined : new Uint8Array(picture.content);
    }),
  );
  return app;
}
