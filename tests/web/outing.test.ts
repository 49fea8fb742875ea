/** How was it? One minute behind the signed link of the mail; kept whole or not at all. */
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { addReader, linkMaker, signToken, type Reader } from '../../src/delivery/index.ts';
import { outingsOf } from '../../src/record/index.ts';
import { readerById } from '../../src/record/delivery/readers.ts';
import { BASE, CONFIG, NOW, SECRET, site, tokenOf, type Site } from './kit.ts';

let web: Site;
let reader: Reader;
let path: string;
let settings: string;
let shown: string;
beforeEach(async () => {
  web = await site();
  reader = await web.reader();
  ({ path, settings, shown } = await linksOf(reader));
});
afterEach(() => web.record.close());

async function linksOf(
  { id }: Reader,
  lake = 'pine-hollow',
): Promise<{ path: string; settings: string; shown: string }> {
  const row = await readerById(web.record, id);
  if (row === undefined) throw new Error('no such reader');
  const body = linkMaker(BASE, SECRET).body(row, lake, web.clockMs);
  const shown = linkMaker(BASE, SECRET).ownOutings(row, web.clockMs);
  return {
    path: body.outing.slice(BASE.length),
    settings: body.settings.slice(BASE.length),
    shown: shown.slice(BASE.length),
  };
}

type Fields = Readonly<Record<string, string>>;
const WHOLE: Fields = {
  lake: 'pine-hollow',
  units: 'us',
  date: '2026-03-05',
  from: '06:30',
  to: '11:00',
  fish: '2',
  place: 'bluff',
  lure: 'jerkbait',
  bites: '4',
  biggest: '2.4',
  biggestUnit: 'lb',
  water: '48',
  shared: 'yes',
};
const tell = (change: Fields = {}, at = path): Promise<Response> =>
  web.post('/outing', Object.entries({ t: tokenOf(at), ...WHOLE, ...change }));
const kept = () => outingsOf(web.record, { readerId: reader.id });

describe('the page that asks how it was', () => {
  it('opens with the link of the mail, asks for blank days, and keeps nothing by opening', async () => {
    const reply = await web.get(path);
    const text = await reply.text();
    expect(reply.status).toBe(200);
    expect(reply.headers.get('cache-control')).toBe('no-store');
    expect(text).toContain('How was it at Pine Hollow Lake?');
    expect(text).toContain('None is an answer, and the one that teaches most.');
    expect(text).toContain('Temperature, °F');
    expect(await kept()).toEqual([]);
  });

  it('keeps what is told, and its water feeds the lake at once', async () => {
    const reply = await tell();
    expect(reply.status).toBe(200);
    expect(await reply.text()).toContain('Kept, thank you');
    expect(await kept()).toMatchObject([
      { date: '2026-03-05', hours: 4.5, fish: 2, bites: 4, places: [{ kind: 'bluff' }], shared: true },
    ]);
    const { readings } = await web.record.view('pine-hollow', NOW);
    expect(readings.map(({ waterC }) => waterC)).toEqual([8.889]);
  });

  it('keeps a blank day with no more than day, hours and none', async () => {
    const reply = await web.post('/outing', [
      ['t', tokenOf(path)],
      ['lake', 'pine-hollow'],
      ['date', '2026-03-05'],
      ['hours', '3,5'],
      ['fish', '0'],
    ]);
    expect(reply.status).toBe(200);
    expect(await kept()).toMatchObject([{ fish: 0, hours: 3.5, shared: false, places: [] }]);
  });

  it('sent twice, as after a lost reply, is kept once', async () => {
    await tell();
    expect((await tell()).status).toBe(200);
    expect(await kept()).toHaveLength(1);
  });

  it.each<[string, Fields, string]>([
    ['a day to come', { date: '2026-03-07' }, 'lies in the future'],
    ['fish without hours', { from: '', to: '' }, 'fish without hours give no rate'],
    ['no word of the fish', { fish: '' }, 'write 0 for none'],
    ['a 40 lb fish', { biggest: '40' }, 'heavier than any black bass on record'],
    ['a place that is none of the lake', { place: '<script>alert(1)</script>' }, 'does not have'],
  ])('refuses %s with a sentence, shows what was typed again, and keeps nothing', async (_, change, says) => {
    const reply = await tell(change);
    const text = await reply.text();
    expect(reply.status).toBe(400);
    expect(text).toContain(says);
    expect(text).toContain('value="48"');
    expect(text).not.toContain('<script>alert');
    expect(await kept()).toEqual([]);
    expect(await web.record.readings('pine-hollow')).toEqual([]);
  });

  it.each<[string, Fields]>([
    ['49 F', { water: '49 F', depth: '1 ft' }],
    ['49F', { water: '49F', depth: '0.3048m' }],
    ['9.444 °C on a form in °F', { water: '9.444 °C', depth: '30.48 cm' }],
    ['a decimal comma and a unit', { water: '9,444 C', depth: '0,3048 m' }],
    ['no unit', { water: '49', depth: '1' }],
  ])('takes the water as typed, with its own unit or without: %s', async (_, typed) => {
    const reply = await tell({ ...typed, clarity: '60 cm', biggest: '1.1 kg' });
    expect(await reply.text()).toContain('Kept, thank you');
    const { readings } = await web.record.view('pine-hollow', NOW);
    expect(readings).toMatchObject([{ waterC: 9.444, depthM: 0.3048 }]);
    // On this form the box of the unit says pounds.
    expect(await kept()).toMatchObject([{ biggestKg: 1.1 }]);
  });

  it('refuses a unit that is none, without putting another behind it', async () => {
    const text = await (await tell({ water: '49 X' })).text();
    expect(text).toContain('&quot;49 X&quot; is no temperature with its unit');
    expect(text).toContain('value="49 X"');
  });

  it('refuses the same hours with another catch', async () => {
    await tell();
    const reply = await tell({ fish: '3' });
    expect(reply.status).toBe(400);
    expect(await reply.text()).toContain('told before, with other results');
    expect(await kept()).toMatchObject([{ fish: 2 }]);
  });

  it('asks about water that fits nothing, and keeps it when it is said again', async () => {
    await tell();
    const odd = { date: '2026-03-04', water: '80' };
    const reply = await tell(odd);
    expect(reply.status).toBe(400);
    expect(await reply.text()).toMatch(/I looked again:\s+the\s+water/);
    expect(await kept()).toHaveLength(1);
    expect((await tell({ ...odd, sure: 'yes' })).status).toBe(200);
    expect(await kept()).toHaveLength(2);
  });

  it('is for readers of the lake alone', async () => {
    const other = await addReader(
      web.record,
      'ben@example.org',
      { lakes: ['cedar'] },
      { knownLakes: ['cedar'], nowMs: NOW },
    );
    const own = await linksOf(other);
    const reply = await tell({}, own.path);
    expect(reply.status).toBe(400);
    expect(await reply.text()).toContain('does not read the briefing of Pine Hollow Lake');
    expect((await web.get(own.path)).status).toBe(400);
    expect(await outingsOf(web.record, { lake: 'pine-hollow' })).toEqual([]);
  });

  it('takes no other link, none that is forged, too old or revoked', async () => {
    const claim = { readerId: reader.id, epoch: 1, expiresMs: NOW + 1e6 } as const;
    const of = (t: string) => `/outing?t=${t}&lake=pine-hollow`;
    expect((await web.get(of(signToken({ ...claim, purpose: 'settings' }, SECRET)))).status).toBe(410);
    expect((await web.get(of(signToken({ ...claim, purpose: 'outing' }, 'another secret')))).status).toBe(
      400,
    );
    expect((await web.get(of(signToken({ ...claim, purpose: 'outing', epoch: 2 }, SECRET)))).status).toBe(
      410,
    );
    expect(
      (await tell({}, of(signToken({ ...claim, purpose: 'outing', expiresMs: NOW - 1 }, SECRET)))).status,
    ).toBe(410);
    // Nor does it open the settings.
    expect((await web.get(`/settings?t=${tokenOf(path)}`)).status).toBe(410);
    expect(await kept()).toEqual([]);
  });

  it('takes a form from its own pages only', async () => {
    const reply = await web.post('/outing', Object.entries({ t: tokenOf(path), ...WHOLE }), {
      origin: 'https://elsewhere.example',
    });
    expect(reply.status).toBe(403);
    expect(await kept()).toEqual([]);
  });

  it('tells no fault of the program, and no note to anybody', async () => {
    await tell({ note: 'behind the leaning cypress' });
    for (const page of ['/', '/evidence', '/briefings/pine-hollow', path])
      expect(await (await web.get(page)).text(), page).not.toContain('cypress');
    expect(web.faults).toEqual([]);
  });
});

describe('a reader’s own outings', () => {
  it('are shown by a link that goes to their reader alone, asked for in the settings', async () => {
    await tell({ note: 'behind the leaning cypress' });
    const page = await (await web.get(settings)).text();
    expect(page).not.toContain('settings/outings?t=');
    expect(page).toContain('action="/settings/outings/ask"');
    expect(await web.letters()).toEqual([]);
    const reply = await web.post('/settings/outings/ask', [['t', tokenOf(settings)]]);
    expect(reply.status).toBe(200);
    expect(await reply.text()).not.toMatch(/cypress|own-outings|[?]t=/);
    await web.post('/settings/outings/ask', [['t', tokenOf(settings)]]);
    expect(await web.letters()).toEqual(['outings-link']);
  });

  it('are not opened, taken along or taken back by any link that a briefing carries', async () => {
    await tell({ note: 'behind the leaning cypress' });
    const [one] = await kept();
    const row = await readerById(web.record, reader.id);
    if (row === undefined) throw new Error('no reader');
    const body = linkMaker(BASE, SECRET).body(row, 'pine-hollow', web.clockMs);
    const oneClick = linkMaker(BASE, SECRET).oneClick(row, web.clockMs);
    for (const link of [...Object.values(body), oneClick]) {
      const t = tokenOf(link.slice(BASE.length));
      for (const end of ['', '.csv', '.json']) {
        const refused = await web.get(`/settings/outings${end}?t=${t}`);
        expect([400, 410]).toContain(refused.status);
        expect(await refused.text()).not.toContain('cypress');
      }
      const back = await web.post('/settings/outings', [
        ['t', t],
        ['id', one?.id ?? ''],
      ]);
      expect([400, 410]).toContain(back.status);
    }
    expect(await kept()).toHaveLength(1);
  });

  it('are listed behind the link of the letter, and taken along as CSV and JSON', async () => {
    await tell({ note: '=1+1, windy' });
    const t = tokenOf(shown);
    expect(await (await web.get(shown)).text()).toContain('2026-03-05: 4.5 h, 2 fish');
    const csv = await web.get(`/settings/outings.csv?t=${t}`);
    expect(csv.headers.get('content-disposition')).toContain('outings.csv');
    const [head, line] = (await csv.text()).split('\r\n');
    expect(head).toMatch(/^lake,date,from,to,hours,/);
    // A spreadsheet must not compute what somebody wrote.
    expect(line).toBe(
      `pine-hollow,2026-03-05,06:30,11:00,4.5,bluff,jerkbait,4,2,,1.0886,8.889,,,,yes,"'=1+1, windy"`,
    );
    const json = (await (await web.get(`/settings/outings.json?t=${t}`)).json()) as { outings: unknown[] };
    expect(json.outings).toMatchObject([{ date: '2026-03-05', fish: 2, biggestKg: 1.0886 }]);
    expect(JSON.stringify(json)).not.toContain(reader.id);
  });

  it('can be taken back by their reader alone, with the reading', async () => {
    await tell();
    const [one] = await kept();
    const other = await addReader(
      web.record,
      'ben@example.org',
      { lakes: ['pine-hollow'] },
      { knownLakes: ['pine-hollow'], nowMs: NOW },
    );
    const theirs = await linksOf(other);
    const take = (t: string) =>
      web.post('/settings/outings', [
        ['t', t],
        ['id', one?.id ?? ''],
      ]);
    await take(tokenOf(theirs.shown));
    expect(await kept()).toHaveLength(1);
    expect((await take(tokenOf(shown))).status).toBe(303);
    expect(await kept()).toEqual([]);
    expect(await web.record.readings('pine-hollow')).toEqual([]);
  });

  it('go with the reader who erases their address', async () => {
    await tell();
    const row = await readerById(web.record, reader.id);
    if (row === undefined) throw new Error('no reader');
    const sure = linkMaker(BASE, SECRET).leaveSure(row, NOW);
    await web.post('/leave/sure/erase', [['t', tokenOf(sure.slice(BASE.length))]]);
    expect(await outingsOf(web.record, { lake: 'pine-hollow' })).toEqual([]);
    expect(await web.record.readings('pine-hollow')).toEqual([]);
  });
});

it('the page of evidence shows what outings say from five readers and 30 outings on, and not before', async () => {
  const readers = await Promise.all(['b', 'c', 'd', 'e'].map((name) => web.reader(`${name}@example.org`)));
  const links = await Promise.all([reader, ...readers].map((one) => linksOf(one)));
  const told = async (n: number): Promise<void> => {
    web.clockMs += 60_000;
    const date = new Date(Date.UTC(2026, 0, 1 + n)).toISOString().slice(0, 10);
    const fields = {
      date,
      water: '',
      fish: String(n % 3),
      bites: '',
      biggest: '',
      place: n % 2 === 0 ? 'bluff' : 'dock',
    };
    expect((await tell(fields, links[n % 5]?.path)).status).toBe(200);
  };
  for (let n = 0; n < 29; n++) await told(n);
  expect(await (await web.get('/evidence')).text()).not.toContain('What readers told');
  await told(29);
  const text = await (await web.get('/evidence')).text();
  expect(text).toContain('What readers told');
  expect(text).toMatch(/30 outings of 5 readers, 10 of them without a fish/);
  expect(text).toMatch(/main-lake bluff: 0\.\d\d fish an hour/);
  // Nobody is named or ranked.
  for (const { id } of [reader, ...readers]) expect(text).not.toContain(id);
});

it('metric readers are asked in their units', async () => {
  const own = await site({ ...CONFIG });
  const metric = await addReader(
    own.record,
    'cy@example.org',
    { lakes: ['pine-hollow'], units: 'metric' },
    { knownLakes: ['pine-hollow'], nowMs: NOW },
  );
  const row = await readerById(own.record, metric.id);
  if (row === undefined) throw new Error('no reader');
  const link = linkMaker(BASE, SECRET).body(row, 'pine-hollow', NOW).outing.slice(BASE.length);
  expect(await (await own.get(link)).text()).toContain('Temperature, °C');
  const reply = await own.post(
    '/outing',
    Object.entries({
      t: tokenOf(link),
      ...WHOLE,
      units: 'metric',
      water: '9',
      biggest: '1,2',
      biggestUnit: 'kg',
    }),
  );
  expect(reply.status).toBe(200);
  expect(await outingsOf(own.record, { readerId: metric.id })).toMatchObject([{ waterC: 9, biggestKg: 1.2 }]);
  await own.record.close();
});
