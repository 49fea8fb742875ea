/** One field behind the signed link of the mail: what the thermometer says now. */
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { linkMaker, type Reader } from '../../src/delivery/index.ts';
import { eraseReader, readerById } from '../../src/record/delivery/readers.ts';
import { BASE, SECRET, site, tokenOf, type Site } from './kit.ts';

let web: Site;
let reader: Reader;
let path: string;
beforeEach(async () => {
  web = await site();
  reader = await web.reader();
  const row = await readerById(web.record, reader.id);
  if (row === undefined) throw new Error('no such reader');
  path = linkMaker(BASE, SECRET).body(row, 'pine-hollow', web.clockMs).reading.slice(BASE.length);
});
afterEach(() => web.record.close());

const give = (water: string, change: Readonly<Record<string, string>> = {}): Promise<Response> =>
  web.post('/reading', Object.entries({ t: tokenOf(path), lake: 'pine-hollow', water, ...change }));
const kept = async () => (await web.record.view('pine-hollow', web.clockMs)).readings;

describe('the page for one reading', () => {
  it('has one field in the reader’s unit, and keeps nothing by opening', async () => {
    const reply = await web.get(path);
    const page = await reply.text();
    expect(reply.status).toBe(200);
    expect(reply.headers.get('cache-control')).toBe('no-store');
    expect(page).toContain('The water at Pine Hollow Lake');
    expect(page.match(/<input\s+type="text"/g)).toHaveLength(1);
    expect(page).toContain('°F');
    expect(await kept()).toEqual([]);
  });

  it('takes a bare number in the reader’s unit, and one with its unit as written', async () => {
    expect(await (await give('48')).text()).toContain('48 °F');
    web.clockMs += 60_000;
    expect(await (await give('9.5 C')).text()).toContain('49 °F');
    expect((await kept()).map(({ waterC }) => waterC?.toFixed(2))).toEqual(['8.89', '9.50']);
  });

  it.each(['warm', '', '48 K', '1e99'])('keeps nothing of %j, and shows what was written', async (water) => {
    const reply = await give(water);
    expect(reply.status).toBe(400);
    expect(await reply.text()).toContain('role="alert"');
    expect(await kept()).toEqual([]);
  });

  it('asks back where lake water hardly is so, and believes who says it is right', async () => {
    const doubted = await give('8');
    expect(doubted.status).toBe(400);
    expect(await doubted.text()).toMatch(/Is this right\?[^]*name="sure"/);
    expect(await kept()).toEqual([]);
    expect((await give('31', { sure: 'yes' })).status).toBe(200);
    expect(await kept()).toHaveLength(1);
  });

  it('takes it back for who gave it, and only there', async () => {
    const page = await (await give('48')).text();
    const at = /name="at" value="([^"]+)"/.exec(page)?.[1] ?? '';
    const back = (t: string) => web.post('/reading/back', Object.entries({ t, lake: 'pine-hollow', at }));
    const other = await web.reader('other@post.example');
    const row = await readerById(web.record, other.id);
    if (row === undefined) throw new Error('no such reader');
    const stranger = linkMaker(BASE, SECRET).body(row, 'pine-hollow', web.clockMs).reading;
    expect(await (await back(tokenOf(stranger))).text()).toContain('Nothing to take back');
    expect(await kept()).toHaveLength(1);
    expect(await (await back(tokenOf(path))).text()).toContain('Taken back');
    expect(await kept()).toEqual([]);
  });

  it('refuses a forged link and a lake the reader has not', async () => {
    expect((await web.get(path.replace(/t=.{4}/, 't=AAAA'))).status).toBe(400);
    expect((await give('48', { lake: 'cedar' })).status).toBe(400);
    expect((await give('48', { lake: 'nowhere' })).status).toBe(400);
    expect(await kept()).toEqual([]);
  });

  it('goes with its reader', async () => {
    await give('48');
    await eraseReader(web.record, reader.id);
    expect(await kept()).toEqual([]);
  });
});
