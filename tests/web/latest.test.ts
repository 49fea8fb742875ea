/** Addresses that stay: the newest issue as data, text, feed and picture, and "not changed" for who asks again. */
import { beforeEach, describe, expect, it } from 'vitest';
import { packRendering } from '../../src/delivery/index.ts';
import { storeBriefing } from '../../src/record/schedule/briefings.ts';
import { sampleFacts } from '../helpers/sampleBriefing.ts';
import { BASE, NOW, site, type Site } from './kit.ts';

let web: Site;
beforeEach(async () => {
  web = await site();
});

const PNG = new Uint8Array([137, 80, 78, 71]);
async function issued(issuedMs = NOW): Promise<void> {
  const json = packRendering({
    subject: 's',
    html: '<p>x</p>',
    text: 'As it was mailed\n',
    short: '',
    attachments: [{ filename: 'ten-days.png', contentType: 'image/png', cid: 'a', content: PNG }],
  });
  await storeBriefing(
    web.record,
    { lakeId: 'pine-hollow', localDate: '2026-03-06', edition: 'morning' },
    {
      issuedMs,
      documentJson: JSON.stringify(sampleFacts()),
      renderings: (['us', 'metric'] as const).map((units) => ({ units, form: 'full' as const, json })),
    },
  );
}

describe('the newest issue', () => {
  it('is data, text, feed, calendar and picture', async () => {
    await issued();
    const of = (ending: string) => web.get(`/lakes/pine-hollow/latest.${ending}`);
    const json = await of('json');
    expect(json.headers.get('content-type')).toMatch(/^application\/json/);
    const twin = (await json.json()) as { facts: { schema: string }; page: { subject: string } };
    expect(twin.facts.schema).toBe('thawline-briefing/2');
    expect(JSON.stringify(twin.page)).not.toContain('{{');
    expect(await (await of('txt')).text()).toContain('What would change it');
    expect(await (await of('atom')).text()).toContain('<feed');
    const calendar = await of('ics');
    expect(calendar.headers.get('content-type')).toMatch(/^text\/calendar/);
    expect(await calendar.text()).toMatch(/^BEGIN:VCALENDAR\r\n/);
    const picture = new Uint8Array(await (await of('png')).arrayBuffer());
    expect(picture.slice(0, 4)).toEqual(PNG);
  });

  it('is in the units that were asked for, the feed too, and in no others', async () => {
    await issued();
    const of = async (ending: string, units: string): Promise<[number, string]> => {
      const reply = await web.get(`/lakes/pine-hollow/latest.${ending}?units=${units}`);
      return [reply.status, await reply.text()];
    };
    for (const ending of ['atom', 'ics', 'json']) {
      const [, metric] = await of(ending, 'metric');
      expect(metric, ending).not.toBe((await of(ending, 'us'))[1]);
    }
    const [, feed] = await of('atom', 'metric');
    expect(feed).toMatch(/<title>[^<]*°C/);
    expect(feed).not.toContain('°F');
    for (const ending of ['atom', 'ics', 'json', 'txt', 'png'])
      expect((await of(ending, 'foo'))[0], ending).toBe(400);
  });

  it('is answered "not changed" until there is another', async () => {
    await issued();
    const ask = (tag: string) =>
      web.app.request(`${BASE}/lakes/pine-hollow/latest.txt`, { headers: { 'if-none-match': tag } });
    const tag = (await web.get('/lakes/pine-hollow/latest.txt')).headers.get('etag') ?? '';
    expect((await ask(tag)).status).toBe(304);
    await issued(NOW + 60_000);
    expect((await ask(tag)).status).toBe(200);
  });

  it('may be shown by pages of others, which no other page may', async () => {
    await issued();
    const of = async (path: string) => (await web.get(path)).headers.get('cross-origin-resource-policy');
    for (const end of ['png', 'json', 'ics'])
      expect(await of(`/lakes/pine-hollow/latest.${end}`)).toBe('cross-origin');
    for (const path of ['/', '/subscribe', '/briefings/pine-hollow/2026-03-06/morning'])
      expect(await of(path)).toBe('same-origin');
  });

  it('promises https for its own host alone', async () => {
    const promise = (await web.get('/')).headers.get('strict-transport-security') ?? '';
    expect(promise).toMatch(/^max-age=\d+$/);
  });

  it('that cannot be made is told with its pattern, without the query', async () => {
    await storeBriefing(
      web.record,
      { lakeId: 'pine-hollow', localDate: '2026-03-06', edition: 'morning' },
      { issuedMs: NOW, documentJson: '{"no":"briefing"}', renderings: [] },
    );
    expect((await web.get('/lakes/pine-hollow/latest.json?t=secret')).status).toBe(500);
    expect(web.failed).toEqual(['GET /lakes/:lake/latest.json']);
  });

  it('is not there before the first, nor for another lake', async () => {
    expect((await web.get('/lakes/pine-hollow/latest.json')).status).toBe(404);
    expect((await web.get('/lakes/nowhere/latest.json')).status).toBe(404);
  });
});
