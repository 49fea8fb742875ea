/**
 * Every page that is served, in a language nobody speaks, from the configuration and the archive to the last answer of
 * one line: what is left in English is names, credits and what a reader types.
 */
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import type { Language } from '../../src/vocabulary/index.ts';
import { PSEUDO } from '../../src/words/index.ts';

vi.mock('../../src/vocabulary/reading.ts', async (original) => {
  const real = await original<typeof import('../../src/vocabulary/reading.ts')>();
  return { ...real, LANGUAGES: [...real.LANGUAGES, 'en-XA'] };
});

const { storeBriefing } = await import('../../src/record/schedule/briefings.ts');
const { putOutings } = await import('../../src/record/index.ts');
const { readOuting } = await import('../../src/outings/index.ts');
const { linkMaker, packRendering } = await import('../../src/delivery/index.ts');
const { readerById, updateReader } = await import('../../src/record/delivery/readers.ts');
const { renderBriefing } = await import('../../src/render/index.ts');
const { loadRules } = await import('../../src/config/rules.ts');
const { foreign } = await import('../helpers/foreign.ts');
const { mappedMorning } = await import('../helpers/mappedMorning.ts');
const { morningNamed } = await import('../helpers/mornings.ts');
const { BASE, CONFIG, NOW, SECRET, site, tokenOf } = await import('./kit.ts');
const { leaks, visible } = await import('./seen.ts');

/** As the mock above has it. */
const FOREIGN = PSEUDO as Language;
const rules = loadRules();
const inPseudo = (rulesWords: Readonly<Record<string, string>>) => ({ en: rulesWords, [PSEUDO]: rulesWords });

let web: Awaited<ReturnType<typeof site>>;
let own: Record<'outing' | 'reading' | 'settings', string>;
let tune: string;

/** Issues of two days; the newest has a map, the older a hazard by the hour. */
async function issued(): Promise<void> {
  const mapped = await mappedMorning(9);
  const rain = morningNamed('warm-rain-pulse').facts;
  for (const [date, kept, edition] of [
    ['2026-03-04', rain, 'evening'],
    ['2026-03-05', rain, 'morning'],
    ['2026-03-06', mapped, 'morning'],
  ] as const) {
    const facts = {
      ...foreign(kept),
      date,
      lake: { ...foreign(kept.lake), language: FOREIGN },
      rulesWords: inPseudo(kept.rulesWords?.['en'] ?? rules.text),
    };
    const renderings = [];
    for (const units of ['us', 'metric'] as const) {
      const mail = await renderBriefing(facts, { units, form: 'full', language: PSEUDO });
      renderings.push({ units, form: 'full' as const, json: packRendering(mail) });
    }
    const key = { lakeId: 'pine-hollow', localDate: date, edition };
    await storeBriefing(web.record, key, { issuedMs: NOW, documentJson: JSON.stringify(facts), renderings });
  }
}

beforeAll(async () => {
  web = await site({ ...CONFIG, lakes: CONFIG.lakes.map((lake) => ({ ...lake, language: FOREIGN })) });
  await issued();
  const reader = await web.reader();
  await updateReader(web.record, reader.id, { language: FOREIGN });
  const row = await readerById(web.record, reader.id);
  if (row === undefined) throw new Error('no such reader');
  const maker = linkMaker(BASE, SECRET);
  const links = maker.body(row, 'pine-hollow', NOW);
  own = { outing: links.outing, reading: links.reading, settings: links.settings };
  tune = maker.tune(NOW).slice(BASE.length);
});
afterAll(() => web.record.close());

const TODAY = { units: 'us', date: '2026-03-05' };
const query = (fields: Readonly<Record<string, string>>): string => String(new URLSearchParams(fields));
const pathOf = (address: string): string => address.slice(BASE.length);

async function seen(reply: Promise<Response> | Response, status = 200): Promise<string> {
  const got = await reply;
  const text = await got.text();
  expect(got.status, text.slice(0, 300)).toBe(status);
  return text;
}

describe('a page for everybody holds no English', () => {
  const HOURS = {
    'hour1.air': '48 F',
    'hour2.wind': '9 mph',
    'hour2.windFrom': 'SW',
    'hour3.thunder': '60 %',
  };
  it.each([
    '/',
    '/?units=metric',
    '/briefings',
    '/briefings/pine-hollow',
    '/briefings/pine-hollow?before=2026-03-06',
    '/briefings/cedar',
    '/briefings/pine-hollow/2026-03-05/morning',
    '/briefings/pine-hollow/2026-03-06/morning?units=metric',
    '/lakes/pine-hollow/map',
    '/lakes/pine-hollow/map?hour=3&units=metric',
    '/evidence',
    '/evidence?units=metric',
    '/subscribe',
    '/what-if',
    `/what-if?${query({ ...TODAY, 'water.main': '47 F', 'rain.last24h': '1.5 in', sky: 'overcast', ...HOURS })}`,
    `/what-if?${query({ units: 'metric', 'water.main': '95 F', 'water.clarity': '4 ft', waterBody: 'tailwater' })}`,
    `/what-if/result?${query({ 'water.main': '60 F', 'fishing.from': '06:00', 'fishing.to': '10:00', date: '2026-05-01' })}`,
  ])('%s', async (path) => {
    const text = visible(await seen(web.app.request(BASE + path, { headers: { accept: 'text/html' } })));
    expect(text.match(/\p{L}/gu)?.length).toBeGreaterThan(50);
    expect(leaks(text)).toEqual([]);
  });

  it.each([
    ['/nowhere', 404],
    ['/lakes/cedar/map', 404],
    ['/settings?t=broken', 400],
    ['/outing?t=broken', 400],
    [`/what-if?${query({ 'water.main': 'warm' })}`, 400],
    [
      `/what-if?${query({ 'water.main': '47 K', latitude: '99', 'wind.speed': '900 mph', sky: 'dull' })}`,
      400,
    ],
    [`/what-if?${query({ date: 'soon', time: 'noon', species: 'pike', 'fishing.to': '9' })}`, 400],
    [
      `/what-if?${query({ 'fishing.from': '11:00', 'fishing.to': '09:00', waterBody: 'pond', 'flow.generation': 'on' })}`,
      400,
    ],
    [
      `/what-if?${query({ 'hour1.wind': '20 mph', 'hour1.gust': '9 mph', 'hour2.windFrom': 'up', 'hour3.at': '9:75', 'hour3.air': '50 F' })}`,
      400,
    ],
  ] as const)('%s, with what is wrong', async (path, status) => {
    expect(leaks(visible(await seen(web.get(path), status)))).toEqual([]);
  });

  it.each([
    ['/lakes/nowhere/latest.txt', 404],
    ['/lakes/cedar/latest.json', 404],
  ] as const)('the one line of %s', async (path, status) => {
    expect(leaks(await seen(web.get(path), status))).toEqual([]);
  });

  it.each(['/briefings/pine-hollow/feed.atom', '/lakes/pine-hollow/latest.atom'])('%s', async (path) => {
    const feed = await seen(web.get(path));
    const told = [...feed.matchAll(/<(title|summary)>([^<]*)</g)].map(([, , text = '']) => text);
    expect(told.length).toBeGreaterThan(4);
    expect(leaks(told.join('\n'))).toEqual([]);
  });

  it('text and calendar for other programs', async () => {
    const text = await seen(web.get('/lakes/pine-hollow/latest.txt'));
    expect(leaks(text)).toEqual([]);
    const calendar = (await seen(web.get('/lakes/pine-hollow/latest.ics'))).replaceAll('\r\n ', '');
    const told = [...calendar.matchAll(/^(?:SUMMARY|DESCRIPTION|NAME|X-WR-CALNAME):(.*)$/gm)].map(
      ([, words = '']) => words.replaceAll('\\n', ' '),
    );
    expect(told.length).toBeGreaterThan(3);
    expect(leaks(told.join('\n'))).toEqual([]);
  });
});

describe('a page of a reader’s own', () => {
  const tell = (fields: Readonly<Record<string, string>>) =>
    web.post('/outing', Object.entries({ t: tokenOf(pathOf(own.outing)), lake: 'pine-hollow', ...fields }));
  const give = (fields: Readonly<Record<string, string>>) =>
    web.post('/reading', Object.entries({ t: tokenOf(pathOf(own.reading)), lake: 'pine-hollow', ...fields }));

  it('asks how it was, and says what is wrong, what is doubtful and what was kept', async () => {
    const wrong = {
      ...{ date: '2027-01-01', from: '25:00', to: '', hours: '99', fish: 'many', bites: 'x', biggest: '3' },
      ...{ water: 'warm', depth: '900', clarity: '99', plan: 'no', note: 'ж'.repeat(1001) },
    };
    const right = { date: '2026-03-05', from: '06:30', to: '11:00', fish: '2', water: '48', shared: 'yes' };
    for (const [reply, status] of [
      [() => web.get(pathOf(own.outing)), 200],
      [() => web.get(`${pathOf(own.outing)}x`), 400],
      [() => web.get(pathOf(own.outing).replace('lake=pine-hollow', 'lake=cedar')), 400],
      [() => tell(wrong), 400],
      [() => tell({ date: '2026-03-05', from: '', to: '07:00', fish: '', bites: '1', biggest: '9' }), 400],
      [() => tell({ ...right, biggest: '900', biggestUnit: 'lb', bites: '1' }), 400],
      [() => tell(right), 200],
      [() => tell({ ...right, fish: '3' }), 400],
      [() => tell({ ...right, to: '12:00' }), 400],
      [() => tell({ date: '2026-03-05', hours: '23', fish: '0' }), 400],
      [() => tell({ date: '2026-03-04', hours: '2', fish: '0', water: '75' }), 400],
    ] as const)
      expect(leaks(visible(await seen(reply(), status)))).toEqual([]);
  });

  it('lists what they told', async () => {
    const lake = web.deps.config.lakes[0];
    if (lake === undefined) throw new Error('no lake');
    const written = { ...{ from: '', to: '', bites: '', biggest: '', water: '', depth: '', clarity: '' } };
    const entries = Array.from({ length: 12 }, (_, i) => {
      const read = readOuting(
        {
          ...written,
          ...{ date: `2026-02-${String(i + 1).padStart(2, '0')}`, hours: '4', fish: String(i % 3) },
          ...{ places: ['bluff'], lures: ['jerkbait'], plan: 'followed', note: '', shared: true },
        },
        { lake, readerId: 'of-them', nowMs: NOW },
      );
      if (!('outing' in read)) throw new Error(JSON.stringify(read.problems));
      return read;
    });
    const { id } = await web.reader();
    const mine = entries.map((entry) => ({ ...entry, outing: { ...entry.outing, readerId: id } }));
    await putOutings(web.record, mine, NOW);
    const path = `/settings/outings?t=${encodeURIComponent(tokenOf((await web.links(id)).ownOutings))}`;
    const text = visible(await seen(web.get(path)));
    expect(text).toContain('2026-02-12');
    expect(leaks(text)).toEqual([]);
  });

  it('takes a reading, asks back about a doubtful one, and takes it back', async () => {
    const kept = await seen(give({ water: '48' }));
    const at = /name="at" value="([^"]+)"/.exec(kept)?.[1] ?? '';
    const back = () => {
      const t = tokenOf(pathOf(own.reading));
      return web.post('/reading/back', Object.entries({ t, lake: 'pine-hollow', at }));
    };
    expect(leaks(visible(kept))).toEqual([]);
    for (const [reply, status] of [
      [() => web.get(pathOf(own.reading)), 200],
      [() => give({ water: '8' }), 400],
      [() => give({ water: '75' }), 400],
      [() => give({ water: '' }), 400],
      [() => give({ water: '48', lake: 'nowhere' }), 400],
    ] as const)
      expect(leaks(visible(await seen(reply(), status)))).toEqual([]);
    expect(leaks(visible(await seen(back())))).toEqual([]);
    expect(leaks(visible(await seen(back())))).toEqual([]);
  });

  it('says what of their wishes cannot be', async () => {
    const t = tokenOf(pathOf(own.settings));
    for (const [name, value] of [
      ['lake', 'nowhere'],
      ['day', '8'],
      ['earliest', '99'],
      ['fishFrom', '09:00'],
    ] as const) {
      const fields = { t, lake: 'cedar', day: '1', language: FOREIGN, [name]: value };
      const page = visible(await seen(web.post('/settings', Object.entries(fields)), 400));
      expect(leaks(page.replaceAll(/pine-hollow|cedar/g, ''))).toEqual([]);
    }
    const asked = Object.entries({ address: 'nobody', lake: 'cedar', day: '1' });
    expect(leaks(visible(await seen(web.post('/subscribe', asked), 400)))).toEqual([]);
  });

  it('tries a threshold', async () => {
    const id = 'safety.hazards.cold-water.classes.near freezing.at';
    for (const [fields, status] of [
      [{}, 200],
      [{ lake: 'nowhere', id, value: '9' }, 400],
      [{ lake: 'cedar', id: 'nothing', value: '9' }, 400],
      [{ lake: 'cedar', id, value: 'much' }, 400],
      [{ lake: 'cedar', id, value: '9.5', spring: 'on' }, 200],
    ] as const) {
      const page = visible(await seen(web.get(`${tune}&${query(fields)}`), status));
      // What was typed comes back as it was.
      expect(leaks(page.replaceAll(/"(nothing|much)"/g, ''))).toEqual([]);
    }
  });
});

describe('what goes wrong, in one line', () => {
  it('a form that is none of ours, too large, or none at all', async () => {
    const post = (body: string, headers: Record<string, string>) =>
      web.app.request(`${BASE}/subscribe`, { method: 'POST', body, headers: { origin: BASE, ...headers } });
    const form = { 'content-type': 'application/x-www-form-urlencoded' };
    expect(leaks(await seen(post('a=b', { ...form, origin: 'https://elsewhere.example' }), 403))).toEqual([]);
    const large = { ...form, 'content-length': '20000' };
    expect(leaks(await seen(post(`a=${'b'.repeat(20_000)}`, large), 413))).toEqual([]);
    expect(leaks(await seen(post('{}', { 'content-type': 'application/json' }), 400))).toEqual([]);
    const put = web.app.request(`${BASE}/what-if`, { method: 'PUT', headers: { origin: BASE } });
    expect(leaks(await seen(put, 405))).toEqual([]);
  });

  it('too many at once', async () => {
    const busy = await site({ ...web.deps.config });
    for (let i = 0; i < 30; i += 1) await busy.post('/leave', [['t', '']]);
    expect(leaks(await seen(busy.post('/leave', [['t', '']]), 429))).toEqual([]);
    await busy.record.close();
  });

  it('a fault of ours', async () => {
    const broken = await site({ ...web.deps.config });
    await broken.record.close();
    expect(leaks(visible(await seen(broken.get('/'), 500)))).toEqual([]);
    expect(broken.faults).not.toEqual([]);
  });
});

describe('a script', () => {
  it.each(['/live.js', '/map.js', '/strip.js', '/outing.js', '/outing-worker.js'])(
    '%s says nothing of its own',
    async (path) => {
      const script = (await seen(web.get(path))).replaceAll(/^\s*\/\/.*$/gm, '');
      const strings = [...script.matchAll(/'([^'\n]*)'/g)].map(([, text = '']) => text);
      expect(strings.length).toBeGreaterThan(3);
      // A selector begins with a mark or holds a bracket; a sentence holds two words one after another.
      const said = strings.filter((text) => !/^[.#[]|\[|use strict/.test(text));
      expect(said.filter((text) => /[a-z]{2,},? [a-z]{2,}/i.test(text))).toEqual([]);
    },
  );
});

it('would notice a leak', async () => {
  const english = await site();
  for (const path of ['/', '/evidence', '/what-if', '/subscribe'])
    expect(leaks(visible(await (await english.get(path)).text())).length, path).toBeGreaterThan(3);
  await english.record.close();
});
