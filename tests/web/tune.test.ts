/** A threshold tried on past mornings, by the operator alone; nothing is changed by it. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { linkMaker, signToken } from '../../src/delivery/index.ts';
import { backFill } from '../../src/schedule/replay/backFill.ts';
import { trialSeasons } from '../../src/schedule/replay/trial.ts';
import { clientFor } from '../../src/schedule/refresh.ts';
import { startSeasonServer, type SeasonServer } from '../schedule/seasonServer.ts';
import { BASE, CONFIG, NOW, SECRET, site, type Site } from './kit.ts';

const KEY = 'safety.hazards.cold-water.classes.near freezing.at';
let web: Site;
let server: SeasonServer;
const path = (): string => linkMaker(BASE, SECRET).tune(NOW).slice(BASE.length);
const tried = async (id: string, value: string): Promise<{ status: number; text: string }> => {
  const reply = await web.get(
    `${path()}&lake=pine-hollow&id=${encodeURIComponent(id)}&value=${encodeURIComponent(value)}`,
  );
  return { status: reply.status, text: await reply.text() };
};

beforeAll(async () => {
  server = await startSeasonServer();
  const [first] = CONFIG.lakes;
  if (first === undefined) throw new Error('no lake');
  const services = { ...CONFIG.services, baseUrls: { 'open-meteo-archive': server.url } };
  const lake = { ...first, latDeg: 36, lonDeg: -92 };
  web = await site({ ...CONFIG, lakes: [lake], services });
  const client = clientFor(web.deps.config, web.record);
  const ctx = { config: web.deps.config, record: web.record, rules: web.deps.rules, env: {}, client };
  const [season] = trialSeasons(lake, NOW);
  await backFill(ctx, lake, season, {
    client,
    services,
    nowMs: NOW,
    pastDays: 0,
    readFile: () => Promise.reject(new Error('no file')),
  });
  await client.close();
}, 60_000);
afterAll(() => server.close());

describe('the page that tries a threshold', () => {
  it('opens with its signed link and for nobody else', async () => {
    expect((await web.get(path())).status).toBe(200);
    expect((await web.get('/tune')).status).toBe(400);
    const other = signToken({ purpose: 'settings', readerId: 'r', epoch: 1, expiresMs: NOW + 1e6 }, SECRET);
    expect((await web.get(`/tune?t=${other}`)).status).toBe(410);
    web.clockMs = NOW + 3 * 86_400_000;
    expect((await web.get(path())).status).toBe(410);
    web.clockMs = NOW;
  });

  it('is kept by no cache and found by no search engine', async () => {
    const { headers } = await web.get(path());
    expect(headers.get('cache-control')).toBe('no-store');
    expect(headers.get('x-robots-tag')).toBe('noindex');
  });

  it('shows the days on which the mornings differ, and the line to paste', async () => {
    const { status, text } = await tried(KEY, '9.5');
    expect(status).toBe(200);
    expect(text).toMatch(/[1-9]\d* of 2\d mornings from 2026-02-04 to 2026-03-05 differ: danger [1-9]/);
    expect(text).toContain(`thresholds:\n  ${KEY}: 9.5 # was `);
    expect(text).not.toContain('The last spring</h2>');
  });

  it.each([
    ['safety.hazards.nothing.at', '3', 'leads to no number in the rules'],
    [KEY, '3,5', 'is no number'],
    [KEY, '', 'is no number'],
    [KEY, '200', 'no longer hold together'],
  ])('answers %s = %s with a sentence', async (id, value, says) => {
    const { status, text } = await tried(id, value);
    expect(status).toBe(400);
    expect(text).toContain(says);
  });

  it('shows nothing of others as markup', async () => {
    const { text } = await tried('<script>alert(1)</script>', '1');
    expect(text).not.toContain('<script>alert(1)');
  });
});

it('the last spring is the one that has ended, half a year later in the south', () => {
  const [lake] = CONFIG.lakes;
  if (lake === undefined) throw new Error('no lake');
  const spring = (date: string, latDeg: number) =>
    trialSeasons({ ...lake, latDeg }, Date.parse(`${date}T18:00:00Z`))[1];
  expect(spring('2026-03-06', 36)).toEqual({ from: '2025-02-01', to: '2025-05-31' });
  expect(spring('2026-06-01', 36)).toEqual({ from: '2026-02-01', to: '2026-05-31' });
  expect(spring('2026-03-06', -30)).toEqual({ from: '2025-08-01', to: '2025-11-30' });
});
