/** Bounce reports over HTTP. Bearer secrets: RFC 6750. The rule behind them is common practice, no source. */
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { readerById } from '../../src/record/delivery/readers.ts';
import { createWebApp, type WebDeps } from '../../src/web/index.ts';
import { BASE, CONFIG, site, type Site } from './kit.ts';

const BEARER = '0123456789abcdef0123456789abcdef';
const ANN = 'ann@example.org';
const DAY_MS = 86_400_000;

let web: Site;
let app: ReturnType<typeof createWebApp>;

function appWith(env: Record<string, string>, more: Partial<WebDeps> = {}): ReturnType<typeof createWebApp> {
  return createWebApp({ ...web.deps, env, ...more });
}

beforeEach(async () => {
  web = await site();
  app = appWith({ THAWLINE_BOUNCES_SECRET: BEARER });
});
afterEach(() => web.record.close());

const post = async (
  body: unknown,
  headers: Record<string, string> = { authorization: `Bearer ${BEARER}` },
  to = app,
): Promise<Response> =>
  to.request(`${BASE}/bounces`, {
    method: 'POST',
    body: typeof body === 'string' ? body : JSON.stringify(body),
    headers: { 'content-type': 'application/json', ...headers },
  });
const noted = (): Promise<{ kind: string }[]> =>
  web.record.db.selectFrom('bounces').select('kind').orderBy('id').execute();

describe('a report with the right secret', () => {
  it('of a complaint ends the mails at once', async () => {
    const { id } = await web.reader(ANN);
    expect((await post({ address: ' Ann@Example.org ', kind: 'complaint' })).status).toBe(204);
    expect((await readerById(web.record, id))?.state).toBe('complained');
  });

  it('of a hard bounce ends them on the second day', async () => {
    const { id } = await web.reader(ANN);
    await post({ address: ANN, kind: 'hard' });
    expect((await readerById(web.record, id))?.state).toBe('active');
    web.clockMs += DAY_MS;
    await post({ address: ANN, kind: 'hard' });
    expect((await readerById(web.record, id))?.state).toBe('bounced');
  });

  it('that is sent again on the next day counts once; another report does not', async () => {
    const { id } = await web.reader(ANN);
    const report = { address: ANN, kind: 'hard', reportId: 'r-1' };
    await post(report);
    web.clockMs += DAY_MS;
    expect((await post(report)).status).toBe(204);
    expect((await readerById(web.record, id))?.state).toBe('active');
    await post({ ...report, reportId: 'r-2' });
    expect((await readerById(web.record, id))?.state).toBe('bounced');
  });

  it('that is sent again to another process, or after a restart, counts once', async () => {
    const { id } = await web.reader(ANN);
    const report = { address: ANN, kind: 'hard', reportId: 'r-1' };
    await post(report);
    web.clockMs += DAY_MS;
    const other = appWith({ THAWLINE_BOUNCES_SECRET: BEARER });
    expect((await post(report, undefined, other)).status).toBe(204);
    expect((await readerById(web.record, id))?.state).toBe('active');
  });

  it('gets the same answer for a known and an unknown address', async () => {
    await web.reader(ANN);
    const [known, unknown] = [
      await post({ address: ANN, kind: 'soft' }),
      await post({ address: 'nobody@example.org', kind: 'soft' }),
    ];
    expect(known.status).toBe(204);
    expect(unknown.status).toBe(204);
    expect([...unknown.headers]).toEqual([...known.headers]);
    expect(await unknown.text()).toBe(await known.text());
    expect(await noted()).toEqual([{ kind: 'soft' }]);
  });

  it('is taken from one sender as often as there are bounces', async () => {
    for (let n = 0; n < 40; n += 1)
      expect((await post({ address: `gone${n}@example.org`, kind: 'hard' })).status).toBe(204);
  });
});

describe('a report without the right secret', () => {
  it.each([
    ['none', {}, 401],
    ['a wrong one', { authorization: `Bearer ${BEARER.slice(0, -1)}0` }, 401],
    ['a part of it', { authorization: `Bearer ${BEARER.slice(0, 8)}` }, 401],
    ['more than it', { authorization: `Bearer ${BEARER}0` }, 401],
    ['nothing after the word', { authorization: 'Bearer ' }, 400],
    ['another scheme', { authorization: `Basic ${BEARER}` }, 400],
  ])('is refused: %s', async (_, headers, status) => {
    const { id } = await web.reader(ANN);
    expect((await post({ address: ANN, kind: 'complaint' }, headers as Record<string, string>)).status).toBe(
      status,
    );
    expect((await readerById(web.record, id))?.state).toBe('active');
    expect(await noted()).toEqual([]);
  });

  it('finds no page at all while no secret is set', async () => {
    expect((await post({ address: ANN, kind: 'hard' }, undefined, appWith({}))).status).toBe(404);
  });

  it('a secret that is too short opens nothing, and the operator is told without it', async () => {
    const short = appWith({ THAWLINE_BOUNCES_SECRET: 'guessable' });
    const headers = { authorization: 'Bearer guessable' };
    expect((await post({ address: ANN, kind: 'hard' }, headers, short)).status).toBe(404);
    expect(String(web.faults[0])).toContain('THAWLINE_BOUNCES_SECRET');
    expect(String(web.faults[0])).not.toContain('guessable');
  });

  it('the name of the variable is the configured one', async () => {
    const config = { ...CONFIG, web: { ...CONFIG.web, bouncesEnv: 'OTHER' } };
    const other = appWith({ OTHER: BEARER, THAWLINE_BOUNCES_SECRET: 'f'.repeat(32) }, { config });
    expect((await post({ address: ANN, kind: 'hard' }, undefined, other)).status).toBe(204);
  });
});

describe('a body that is no report', () => {
  it.each([
    ['no JSON', `{"address":"${ANN}"`],
    ['no address', { kind: 'hard' }],
    ['not an address', { address: 'ann at example', kind: 'hard' }],
    ['two addresses', { address: `${ANN},bob@example.org`, kind: 'hard' }],
    ['another kind', { address: ANN, kind: 'delayed' }],
    ['a field too many', { address: ANN, kind: 'hard', reportID: 'r' }],
    ['an id without end', { address: ANN, kind: 'hard', reportId: 'r'.repeat(201) }],
    ['a list', [{ address: ANN, kind: 'hard' }]],
  ])('is refused without repeating it: %s', async (_, body) => {
    await web.reader(ANN);
    const reply = await post(body);
    expect(reply.status).toBe(400);
    expect(await reply.text()).not.toContain('ann');
    expect(await noted()).toEqual([]);
    expect(web.faults).toEqual([]);
  });

  it('is refused when it is too large', async () => {
    expect((await post({ address: ANN, kind: 'hard', reportId: 'r'.repeat(20_000) })).status).toBe(413);
  });
});

describe('the log', () => {
  it('never gets the address, not even when the record fails', async () => {
    const outlets = [
      ...(['log', 'info', 'warn', 'error', 'debug'] as const).map((name) => vi.spyOn(console, name)),
      vi.spyOn(process.stdout, 'write'),
      vi.spyOn(process.stderr, 'write'),
    ];
    for (const outlet of outlets) outlet.mockReturnValue(undefined as never);
    await web.reader(ANN);
    await post({ address: ANN, kind: 'complaint' });
    await web.record.db.transaction().execute((db) => db.schema.dropTable('bounce_reports').execute());
    const broken = await post({ address: ANN, kind: 'hard' });
    const said = outlets.flatMap((outlet) => outlet.mock.calls.flat().map(String)).join('\n');
    vi.restoreAllMocks();
    expect(broken.status).toBe(500);
    expect(web.faults).toHaveLength(1);
    const [fault] = web.faults;
    const told = fault instanceof Error ? `${fault.message}${fault.stack ?? ''}` : String(fault);
    expect(`${said}${told}${await broken.text()}`).not.toContain(ANN);
  });
});
