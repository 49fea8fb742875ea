/** A reader's pages and letters in a language that nobody speaks: no English is left but names, addresses and units. */
import { convert } from 'html-to-text';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { confirmLetter, leaveLetter, outingsLetter } from '../../src/delivery/letters.ts';
import { personalise } from '../../src/delivery/index.ts';
import { updateReader } from '../../src/record/delivery/readers.ts';
import type { Language } from '../../src/vocabulary/index.ts';
import { PSEUDO, wordsFor } from '../../src/words/index.ts';
import { rendered } from '../delivery/kit.ts';
import { CONFIG, site, tokenOf, type Site } from './kit.ts';

/** Nobody speaks it, so no configuration offers it. */
const FOREIGN = PSEUDO as Language;

/** The program's name, the lakes', a language by its own name, addresses and units. */
const NAMES =
  /Thawline|Pine Hollow Lake|Cedar <Fork> & Co|Cedar|English|ann@example\.org|https?:\S+|(?<=\d)°[CF]|°[CF]/g;
const leaks = (text: string): string[] => text.replace(NAMES, '').match(/[A-Za-z]+/g) ?? [];

/** What is read of a page, its title and labels included. */
function visible(page: string): string {
  const labels = [...page.matchAll(/(?:aria-label|alt|placeholder)="([^"]*)"/g)].map(([, label]) => label);
  const title = /<title>([^<]*)/.exec(page)?.[1];
  const body = convert(page.slice(page.indexOf('<body')), {
    wordwrap: false,
    selectors: [
      { selector: 'a', options: { ignoreHref: true } },
      ...['h1', 'h2'].map((selector) => ({ selector, options: { uppercase: false } })),
    ],
  });
  return [title, ...labels, body].join('\n');
}

describe('the pages of a reader', () => {
  let web: Site;
  beforeEach(async () => {
    web = await site();
  });
  afterEach(() => web.record.close());

  const foreigner = async () => {
    const { id } = await web.reader();
    await updateReader(web.record, id, { language: FOREIGN });
    return web.links(id);
  };
  const page = async (reply: Promise<Response>): Promise<string> => (await reply).text();

  it.each(['settings', 'leave', 'leaveSure', 'ownOutings'] as const)('%s', async (name) => {
    const links = await foreigner();
    const shown = await page(web.get(links[name]));
    expect(leaks(visible(shown))).toEqual([]);
    expect(shown).toContain(`<html lang="${PSEUDO}">`);
  });

  it('what comes of a button', async () => {
    const links = await foreigner();
    const t = tokenOf(links.settings);
    const saved = web.post('/settings', [
      ['t', t],
      ['lake', 'cedar'],
      ['day', '1'],
      ['language', ''],
    ]);
    // They have just gone back to the language of the lake.
    expect(leaks(visible(await page(saved)))).not.toEqual([]);
    expect((await page(web.get(links.settings))).includes('lang="en"')).toBe(true);
  });

  it('is erased in their language', async () => {
    const links = await foreigner();
    const shown = await page(web.post('/leave/sure/erase', [['t', tokenOf(links.leaveSure)]]));
    expect(leaks(visible(shown))).toEqual([]);
  });
});

describe('the pages of a place whose lakes all have the language', () => {
  let web: Site;
  beforeEach(async () => {
    web = await site({ ...CONFIG, lakes: CONFIG.lakes.map((lake) => ({ ...lake, language: FOREIGN })) });
  });
  afterEach(() => web.record.close());

  it.each(['/subscribe', '/nowhere', '/settings?t=broken', '/leave?t=broken'])('%s', async (path) => {
    expect(leaks(visible(await (await web.get(path)).text()))).toEqual([]);
  });

  it('the answer to who asks for the briefing', async () => {
    const asked = await web.post('/subscribe', [
      ['address', 'bob@example.org'],
      ['lake', 'cedar'],
      ['day', '1'],
    ]);
    expect(leaks(visible(await asked.text()))).toEqual([]);
  });
});

describe('what a mail says around the briefing', () => {
  const words = wordsFor(PSEUDO);
  const url = 'https://briefing.example/x';

  it.each([
    ['to confirm', confirmLetter(url, words)],
    ['to leave', leaveLetter(url, words)],
    ['to what they told', outingsLetter(url, words)],
  ])('the letter %s', (_name, { subject, text }) => {
    expect(leaks(`${subject}\n${text}`)).toEqual([]);
    expect(text).toContain(url);
  });

  it('the links, and the fronts of other lakes', () => {
    const links = { settings: url, leave: url, subscribe: url, archive: url, outing: url, reading: url };
    const plain = rendered({
      html: '<html><body><!--other-lakes--><!--personal-links--></body></html>',
      text: '',
    });
    const others = { cards: ['ж'], notOut: 2 };
    const mail = personalise({ ...plain, language: PSEUDO }, links, others, true);
    expect(leaks(visible(mail.html))).toEqual([]);
    expect(leaks(mail.text)).toEqual([]);
    expect(leaks(personalise(plain, links, others).text)).not.toEqual([]);
  });
});
