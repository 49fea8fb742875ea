import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { readerById } from '../../src/record/delivery/readers.ts';
import { BASE, issue, site, tokenOf, type Site } from './kit.ts';

let web: Site;
beforeEach(async () => {
  web = await site();
});
afterEach(() => web.record.close());

const text = async (path: string) => (await web.get(path)).text();
const EVERY_DAY = ['1', '2', '3', '4', '5', '6', '7'].map((day) => ['day', day] as const);

async function subscribed(): Promise<string> {
  await web.post('/subscribe', [['address', 'Bob@Example.org'], ['lake', 'pine-hollow'], ...EVERY_DAY]);
  const [row] = await web.record.db.selectFrom('readers').select('id').execute();
  return row?.id ?? '';
}

describe('coming', () => {
  it('takes a confirmation from one’s own mailbox; until then nobody is a reader', async () => {
    const id = await subscribed();
    expect((await readerById(web.record, id))?.state).toBe('pending');
    expect(await web.letters()).toEqual(['confirm']);
    const { confirm } = await web.links(id);
    expect(await text(confirm)).toContain('Send the briefing to bob@example.org?');
    expect((await web.post('/confirm', [['t', tokenOf(confirm)]])).status).toBe(200);
    expect(await readerById(web.record, id)).toMatchObject({ state: 'active', lakes: ['pine-hollow'] });
  });

  it('without a lake is asked again, with what was filled in', async () => {
    const reply = await web.post('/subscribe', [['address', 'bob@example.org'], ...EVERY_DAY]);
    expect(reply.status).toBe(400);
    const page = await reply.text();
    expect(page).toContain('Choose at least one of the lakes');
    expect(page).toContain('value="bob@example.org"');
  });

  it('by a program that fills every field looks the same and does nothing', async () => {
    const fields = [
      ['address', 'bob@example.org'],
      ['lake', 'cedar'],
      ['website', 'x'],
      ...EVERY_DAY,
    ] as const;
    expect((await web.post('/subscribe', fields)).status).toBe(200);
    expect(await web.letters()).toEqual([]);
  });
});

describe('settings', () => {
  it('are shown as chosen and changed by the link of the mail', async () => {
    const { id } = await web.reader();
    const { settings } = await web.links(id);
    expect(await text(settings)).toMatch(/value="pine-hollow" checked/);
    const reply = await web.post('/settings', [
      ['t', tokenOf(settings)],
      ['lake', 'cedar'],
      ['units', 'metric'],
      ['form', 'short'],
      ['day', '6'],
      ['earliest', '7'],
      ['fishFrom', '05:30'],
      ['fishTo', '09:00'],
      ['language', 'en'],
    ]);
    const page = await reply.text();
    expect(page).toContain('Saved.');
    expect(page.replace(/\s+/g, ' ')).toMatch(
      /value="05:30" selected.*value="09:00" selected.*value="en" selected/,
    );
    expect(await readerById(web.record, id)).toMatchObject({
      lakes: ['cedar'],
      units: 'metric',
      form: 'short',
      days_mask: 32,
      earliest_hour: 7,
      amendments: 0,
      fishing: '05:30-09:00',
      language: 'en',
    });
  });

  it.each([
    [
      ['lake', 'nowhere'],
      ['day', '1'],
    ],
    [
      ['lake', 'cedar'],
      ['day', '8'],
    ],
    [
      ['lake', 'cedar'],
      ['day', '1'],
      ['earliest', '99'],
    ],
    [
      ['lake', 'cedar'],
      ['day', '1'],
      ['fishFrom', '09:00'],
    ],
  ])('out of range are not saved: %j %j', async (...fields) => {
    const { id } = await web.reader();
    const { settings } = await web.links(id);
    const reply = await web.post('/settings', [
      ['t', tokenOf(settings)],
      ...fields.map(([name = '', value = '']) => [name, value] as const),
    ]);
    expect(reply.status).toBe(400);
    expect(await reply.text()).toContain('Not saved.');
    expect(await readerById(web.record, id)).toMatchObject({ lakes: ['pine-hollow'] });
  });

  it('can make every link sent so far worthless', async () => {
    const { id } = await web.reader();
    const { settings } = await web.links(id);
    expect((await web.post('/settings/revoke', [['t', tokenOf(settings)]])).status).toBe(200);
    expect((await web.get(settings)).status).toBe(410);
    expect((await web.get((await web.links(id)).settings)).status).toBe(200);
  });
});

describe('leaving', () => {
  it('by the header’s address is one POST, and a second one is as good', async () => {
    const { id } = await web.reader();
    const { oneClick } = await web.links(id);
    expect(await text(oneClick)).toContain('has changed nothing yet');
    for (let i = 0; i < 2; i += 1)
      expect((await web.post(oneClick, [['List-Unsubscribe', 'One-Click']])).status).toBe(200);
    expect((await readerById(web.record, id))?.state).toBe('left');
  });

  it('by a forwarded mail only makes a letter go to its first reader', async () => {
    const { id } = await web.reader();
    const { leave, settings } = await web.links(id);
    await web.post('/leave', [['t', tokenOf(leave)]]);
    await web.post('/settings/leave', [['t', tokenOf(settings)]]);
    expect((await readerById(web.record, id))?.state).toBe('active');
    expect(await web.letters()).toEqual(['leave-confirm']);
  });

  it('by the letter asks once more, then ends it', async () => {
    const { id } = await web.reader();
    const { leaveSure } = await web.links(id);
    expect(await text(leaveSure)).toContain('ann@example.org');
    expect((await web.post('/leave/sure', [['t', tokenOf(leaveSure)]])).status).toBe(200);
    expect((await readerById(web.record, id))?.state).toBe('left');
  });

  it('can erase the address everywhere', async () => {
    const { id } = await web.reader();
    const { leave, leaveSure } = await web.links(id);
    await web.post('/leave', [['t', tokenOf(leave)]]);
    expect((await web.post('/leave/sure/erase', [['t', tokenOf(leaveSure)]])).status).toBe(200);
    expect(await readerById(web.record, id)).toBeUndefined();
    expect(await web.letters()).toEqual([]);
  });
});

describe('the page of the evidence', () => {
  it('lists every rule with its weight, its kind of evidence and its source', async () => {
    const page = await text('/evidence');
    const { modifiers, places, sources } = web.deps.rules.positions;
    for (const { id } of modifiers) expect(page).toContain(`<code>${id}</code>`);
    for (const id of Object.keys(sources)) expect(page).toContain(`<dt>${id}</dt>`);
    const measured = modifiers.filter(({ grade }) => grade === 'measured').length;
    expect(measured).toBeGreaterThan(0);
    expect(page).toContain(`measured elsewhere (${measured})`);
    expect(page).toContain(`ranked by ${modifiers.length + places.length * 9} rules`);
    expect(page).toContain('Long Term Resource Monitoring');
    expect(page).not.toContain('{{');
  });

  it('says of each rule that fish were asked about how many sites it spoke of and whether they agree', async () => {
    const page = (await text('/evidence')).replace(/\s+/g, ' ');
    const verdicts = web.deps.rules.fish?.verdicts ?? [];
    expect(verdicts.length).toBeGreaterThan(50);
    for (const { species, n } of verdicts) expect(page).toContain(`${species}, n = ${n}: fish`);
    expect(page).toContain('fish contradict it');
    expect(page).toContain('of pairs in years left out; one half is chance');
  });
});

describe('the archive', () => {
  it('lists what was issued and shows all of it, with the pictures that were mailed and nobody’s links', async () => {
    await issue(web.record, '2026-03-05');
    await issue(web.record, '2026-03-06');
    const list = await text('/briefings/pine-hollow');
    expect(list.indexOf('2026-03-06')).toBeLessThan(list.indexOf('2026-03-05'));
    // The newest day's front, and a line a morning: water, danger, first place.
    expect(list).toMatch(/<section class="front">[^]*of 4\.[^]*Be in by/);
    expect(list).toMatch(/<td>\d+ °F<\/td>\s*<td>[1-4] of 4<\/td>/);
    const page = await text('/briefings/pine-hollow/2026-03-06/morning');
    expect(page).toMatch(/<h1[^>]*>Quarry Bend Lake<\/h1>/);
    // What a mail has no room for.
    for (const only of ['What would change it', 'If nothing happens', 'Limited by'])
      expect(page).toContain(only);
    expect(page).not.toMatch(/cid:|personal-links|[?&]t=/);
    expect(page).toContain('href="/briefings/pine-hollow"');
    const [, picture = ''] = /src="([^"]+)"/.exec(page) ?? [];
    const reply = await web.get(picture);
    expect(reply.headers.get('content-type')).toBe('image/png');
    expect(new Uint8Array(await reply.arrayBuffer())).toEqual(new Uint8Array([1, 2, 3]));
  });

  it('opens with each lake’s front of today, and says when it is not of today', async () => {
    await issue(web.record, '2026-03-06');
    const home = await text('/');
    expect(home).toContain('Pine Hollow Lake');
    expect(home).toMatch(/<strong>\d+(:\d\d)?( am)? to \d+(:\d\d)? [ap]m<\/strong>/);
    expect(home).toMatch(/\d+ °F lake/);
    expect(home).not.toContain('Not of today');
    expect(home).toContain('Nothing has been issued yet.');
    web.clockMs += 3 * 86_400_000;
    expect(await text('/')).toContain('Not of today');
    expect(await text('/?units=metric')).toMatch(/ °C lake/);
  });

  it('has an address without the edition, data, and a 404 for what was not issued', async () => {
    await issue(web.record, '2026-03-06');
    const reply = await web.get('/briefings/pine-hollow/2026-03-06');
    expect(reply.headers.get('location')).toBe('/briefings/pine-hollow/2026-03-06/morning');
    const data = await web.get('/briefings/pine-hollow/2026-03-06/morning/briefing.json');
    expect(await data.json()).toMatchObject({ schema: 'thawline-twin/2', facts: { date: '2026-03-06' } });
    expect((await web.get('/briefings/pine-hollow/2026-03-07/morning')).status).toBe(404);
    expect((await web.get('/briefings/pine-hollow/2026-03-06/noon')).status).toBe(404);
  });

  it('has a feed with what RFC 4287 asks of one', async () => {
    // RFC 4287, 4.1.1 and 4.1.2: id, title, updated of feed and entries; an author; the self link.
    await issue(web.record, '2026-03-06');
    const reply = await web.get('/briefings/pine-hollow/feed.atom');
    expect(reply.headers.get('content-type')).toMatch(/^application\/atom\+xml/);
    const feed = await reply.text();
    expect(feed).toMatch(/^<\?xml version="1\.0" encoding="utf-8"\?>/);
    for (const part of [
      '<author><name>',
      'rel="self"',
      '<entry>',
      '<updated>2026-03-06T12:00:00.000Z</updated>',
    ])
      expect(feed).toContain(part);
    expect(feed.match(/<id>/g)).toHaveLength(2);
    expect(feed.match(/<title>/g)).toHaveLength(2);
  });
});

describe('what if', () => {
  it('answers from the address alone, in the units asked for', async () => {
    const asked = 'water.main=47+F&rain.last24h=1.5+in&rain.temperature=58+F&date=2026-03-06&latitude=36';
    const us = await text(`/what-if?${asked}`);
    expect(us).toMatch(/<ol>[\s\S]*<strong>/);
    expect(us).toContain('Safety first');
    expect(us).toContain('value="47 F"');
    expect(us).not.toContain('{{');
    const metric = await text(`/what-if?${asked}&units=metric`);
    expect(metric).toMatch(/8\.3 °C/);
  });

  /** What the page's script asks for: the answer without the page around it. */
  const part = async (query: string): Promise<string> => {
    const headers = { accept: 'text/html' };
    return (await web.app.request(`${BASE}/what-if/result?${query}`, { headers })).text();
  };

  it('opened by itself, the answer alone leads to its page and keeps the question', async () => {
    const query = 'water.main=47+F&date=2026-03-06';
    const browser = { accept: 'text/html,application/xhtml+xml,*/*;q=0.8' };
    for (const headers of [browser, {}]) {
      const reply = await web.app.request(`${BASE}/what-if/result?${query}`, { headers });
      expect([reply.status, reply.headers.get('location')]).toEqual([302, `/what-if?${query}`]);
    }
  });

  it('moves with the conditions', async () => {
    const places = async (water: string) =>
      [
        ...(await part(`water.main=${water}+F&date=2026-03-06&latitude=36`)).matchAll(
          /<strong>([^<]+)<\/strong>, /g,
        ),
      ].map((m) => m[1]);
    const cold = await places('40');
    expect(cold).toHaveLength(5);
    expect(cold).not.toEqual(await places('68'));
  });

  const storm = [
    'date=2026-05-28&latitude=34&water.main=76+F&water.clarity=4+ft&waterBody=natural-lake',
    'hour1.at=05:00&hour1.air=68+F&hour1.wind=4+mph&hour1.windFrom=S&hour1.thunder=5+%25',
    'hour4.at=14:00&hour4.air=86+F&hour4.wind=12+mph&hour4.gust=25+mph&hour4.thunder=60+%25',
    'hour5.at=18:00&hour5.thunder=20+%25&hour5.wind=6+mph',
  ].join('&');

  it('plans a day from its hours: blocks with their hours, what is closed, how each is worked', async () => {
    const page = await text(`/what-if?${storm}`);
    expect(page).toMatch(/<h2>The day<\/h2>[\s\S]*<strong>\d\d:\d\d-\d\d:\d\d [\s\S]*14:00-18:30 closed/);
    // A card for each block, with the hours of the block.
    const blocks = [...page.matchAll(/<strong>(\d\d:\d\d-\d\d:\d\d) [^<]+, [^<]*ft, /g)].map((m) => m[1]);
    const cards = [...page.matchAll(/<strong>(\d\d:\d\d-\d\d:\d\d) [^<,]+<\/strong>\s+at\s/g)].map(
      (m) => m[1],
    );
    expect(blocks.length).toBeGreaterThan(0);
    expect(cards).toEqual(blocks);
    // The address holds the whole table.
    expect(page).toContain('value="86 F"');
    expect(page).toContain('value="05:00"');
  });

  it('keeps the plan within the hours of who asks', async () => {
    const page = await text(`/what-if?${storm}&fishing.from=07:00&fishing.to=13:00`);
    const blocks = [...page.matchAll(/<strong>(\d\d:\d\d)-(\d\d:\d\d) [^<]+, [^<]*ft, /g)];
    expect(blocks[0]?.[1]).toBe('07:00');
    expect(blocks.at(-1)?.[2]).toBe('13:00');
  });

  it('names the cell of the table that it cannot read', async () => {
    const reply = await web.get('/what-if?hour2.air=warm&hour2.at=09:30');
    expect(reply.status).toBe(400);
    expect(await reply.text()).toMatch(/role="alert"[\s\S]*Air at 09:30: found/);
  });

  it('says what cannot be read, beside the form', async () => {
    const reply = await web.get('/what-if?water.main=warm');
    expect(reply.status).toBe(400);
    const page = await reply.text();
    expect(page).toMatch(/role="alert"[\s\S]*Main lake, about 3 ft down: found/);
    expect(page).toContain('value="warm"');
  });
});

describe('health', () => {
  it('is 503 with the reason while nothing has been issued', async () => {
    const reply = await web.get('/healthz');
    expect(reply.status).toBe(503);
    expect(await reply.json()).toMatchObject({
      ok: false,
      lakes: [{ lake: 'pine-hollow' }, { lake: 'cedar' }],
    });
  });
});
