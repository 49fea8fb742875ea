import { domainToASCII } from 'node:url';
import { once } from 'node:events';
import { request, type IncomingMessage } from 'node:http';
import { connect } from 'node:net';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { signToken } from '../../src/delivery/index.ts';
import { readerById } from '../../src/record/delivery/readers.ts';
import { startWebServer } from '../../src/web/index.ts';
import { BASE, issue, NOW, site, tokenOf, type Site } from './kit.ts';

let web: Site;
beforeEach(async () => {
  web = await site();
});
afterEach(() => web.record.close());

const WISHES = [
  ['lake', 'pine-hollow'],
  ['day', '1'],
] as const;

describe('tokens', () => {
  it('forged ones open nothing and say nothing', async () => {
    const { id } = await web.reader();
    const links = await web.links(id);
    const forged = signToken(
      { purpose: 'settings', readerId: id, epoch: 1, expiresMs: NOW + 1e9 },
      'another secret of thirty-two characters',
    );
    for (const token of [
      forged,
      // The letter before the last but one is another one, whatever it was.
      tokenOf(links.settings).replace(/.(?=..$)/, (letter) => (letter === 'A' ? 'B' : 'A')),
      'x',
      '',
      '.'.repeat(500),
      '%00',
    ]) {
      const page = await web.get(`/settings?t=${encodeURIComponent(token)}`);
      expect(page.status).toBe(400);
      expect(await page.text()).not.toContain('ann@example.org');
      expect((await web.post('/settings', [['t', token], ...WISHES])).status).toBe(400);
    }
  });

  it('expired ones are refused by page and by POST', async () => {
    const { id } = await web.reader();
    const { settings, leave } = await web.links(id);
    web.clockMs += 2 * 365 * 86_400_000;
    expect((await web.get(settings)).status).toBe(410);
    expect((await web.post('/settings', [['t', tokenOf(settings)], ...WISHES])).status).toBe(410);
    expect((await web.post('/leave', [['t', tokenOf(leave)]])).status).toBe(410);
  });

  it('of one purpose do not serve another', async () => {
    const { id } = await web.reader();
    const { leave, settings } = await web.links(id);
    expect((await web.post(`/leave/now?t=${tokenOf(leave)}`, [])).status).toBe(410);
    expect((await web.post('/leave/sure', [['t', tokenOf(leave)]])).status).toBe(410);
    expect((await web.post('/leave/sure/erase', [['t', tokenOf(settings)]])).status).toBe(410);
    expect((await readerById(web.record, id))?.state).toBe('active');
  });

  it('replayed after leaving bring nobody back and change nothing', async () => {
    await web.post('/subscribe', [['address', 'bob@example.org'], ...WISHES]);
    const [row] = await web.record.db.selectFrom('readers').select('id').execute();
    const id = row?.id ?? '';
    const { confirm } = await web.links(id);
    expect((await web.post('/confirm', [['t', tokenOf(confirm)]])).status).toBe(200);
    const { oneClick } = await web.links(id);
    expect((await web.post(oneClick, [['List-Unsubscribe', 'One-Click']])).status).toBe(200);
    expect((await web.post('/confirm', [['t', tokenOf(confirm)]])).status).toBe(410);
    expect((await readerById(web.record, id))?.state).toBe('left');
  });
});

describe('a GET', () => {
  it('never changes anything, whatever link it follows', async () => {
    const { id } = await web.reader();
    const before = await readerById(web.record, id);
    for (const path of Object.values(await web.links(id))) await web.get(path);
    expect(await readerById(web.record, id)).toEqual(before);
    expect(await web.letters()).toEqual([]);
  });
});

describe('forms from elsewhere', () => {
  it.each([
    ['another site', { origin: 'https://evil.example', 'sec-fetch-site': 'cross-site' }],
    ['a page without an origin', { origin: 'null' }],
    [
      'a name of theirs that was made to lead here',
      { origin: 'http://evil.example', host: 'evil.example', 'sec-fetch-site': 'same-origin' },
    ],
  ])('are refused: %s', async (_, headers) => {
    const reply = await web.post('/subscribe', [['address', 'a@example.org'], ...WISHES], headers);
    expect(reply.status).toBe(403);
    expect(await web.letters()).toEqual([]);
  });

  it('are refused under a name that leads to the very address, and taken under the ones the process has', async () => {
    const server = await startWebServer(web.deps, 0);
    try {
      const port = String(server.port);
      const send = async (host: string, origin: string): Promise<number | undefined> => {
        const form = request({
          host: '127.0.0.1',
          port,
          path: '/subscribe',
          method: 'POST',
          headers: { host, origin, 'content-type': 'application/x-www-form-urlencoded' },
        });
        form.end('address=bob%40example.org&lake=cedar&day=1');
        const [reply] = (await once(form, 'response')) as [IncomingMessage];
        reply.resume();
        return reply.statusCode;
      };
      expect(await send(`evil.example:${port}`, `http://evil.example:${port}`)).toBe(403);
      expect(await web.letters()).toEqual([]);
      expect(await send(`localhost:${port}`, `http://localhost:${port}`)).toBe(200);
      expect(await send(`127.0.0.1:${port}`, BASE)).toBe(200);
    } finally {
      await server.close();
    }
  });

  it('are taken at the one-click address, which mailbox providers post to without an origin', async () => {
    const { id } = await web.reader();
    const { oneClick } = await web.links(id);
    const reply = await web.app.request(BASE + oneClick, {
      method: 'POST',
      body: 'List-Unsubscribe=One-Click',
      headers: { 'content-type': 'application/x-www-form-urlencoded' },
    });
    expect(reply.status).toBe(200);
    expect((await readerById(web.record, id))?.state).toBe('left');
  });
});

describe('a method that a page does not have', () => {
  it.each([
    ['PUT', '/what-if', 'GET, HEAD'],
    ['OPTIONS', '/subscribe', 'GET, HEAD, POST'],
    ['DELETE', '/briefings/pine-hollow/2026-03-06', 'GET, HEAD'],
    ['PATCH', '/', 'GET, HEAD'],
    ['POST', '/', 'GET, HEAD'],
    ['POST', '/style.css', 'GET, HEAD'],
  ])('%s %s is answered with what is allowed', async (method, path, allow) => {
    const reply = await web.app.request(BASE + path, { method });
    expect([reply.status, reply.headers.get('allow')]).toEqual([405, allow]);
    expect(reply.headers.get('content-security-policy')).toContain("default-src 'none'");
  });

  it('on a page that is not there is a page that is not there', async () => {
    const headers = { origin: BASE };
    for (const method of ['PUT', 'OPTIONS', 'POST', 'GET'])
      expect((await web.app.request(`${BASE}/nowhere`, { method, headers })).status).toBe(404);
  });

  it('HEAD is what GET is', async () => {
    expect((await web.app.request(`${BASE}/subscribe`, { method: 'HEAD' })).status).toBe(200);
  });
});

describe('injection', () => {
  it('of headers by an address is refused', async () => {
    for (const address of [
      'a@example.org\r\nBcc: b@example.org',
      'a@example.org%0aBcc:b',
      'a b@example.org',
      'a@',
    ]) {
      const reply = await web.post('/subscribe', [['address', address], ...WISHES]);
      expect(reply.status).toBe(400);
    }
    expect(await web.record.db.selectFrom('readers').selectAll().execute()).toEqual([]);
  });

  /** Every field of the form, so that an address is the only thing that can be wrong. */
  const whole = (address: string): [string, string][] => [
    ['address', address],
    ['website', ''],
    ['lake', 'pine-hollow'],
    ['units', 'us'],
    ['form', 'full'],
    ['earliest', '0'],
    ...['1', '2', '3', '4', '5', '6', '7'].map((day): [string, string] => ['day', day]),
  ];
  const kept = async (): Promise<string[]> =>
    (await web.record.db.selectFrom('readers').select('address').execute()).map(({ address }) => address);

  // Ends of line, other controls, marks that are not seen or turn the writing (Unicode 15, General_Category Cc and Cf).
  it.each([
    '\r\n',
    '\n',
    '\r',
    '\0',
    '\t',
    '\u0085',
    '\u2028',
    '\u200b',
    '\u202e',
    '\u2066',
    '\ufeff',
    '\u00ad',
  ])('by %j anywhere within an address is refused, all other fields being right', async (mark) => {
    for (const address of [
      `a${mark}Bcc: b@example.org`,
      `a${mark}b@example.org`,
      `a@exam${mark}ple.org`,
      `a@${mark}example.org`,
    ]) {
      expect((await web.post('/subscribe', whole(address))).status, JSON.stringify(address)).toBe(400);
    }
    expect(await kept()).toEqual([]);
    expect(await web.letters()).toEqual([]);
  });

  it('by several addresses in one field is refused', async () => {
    for (const address of [
      'a@example.org,b@example.org',
      'a@example.org;b@example.org',
      'A <a@example.org>',
      'a@b@example.org',
    ])
      expect((await web.post('/subscribe', whole(address))).status, address).toBe(400);
    expect(await kept()).toEqual([]);
  });

  it('look-alike letters make another reader, told by the domain’s ASCII name, and never stand for the one who is here', async () => {
    expect((await web.post('/subscribe', whole('anna@example.org'))).status).toBe(200);
    // Cyrillic a (U+0430) in the name, Cyrillic a in the domain; full-width letters in the domain are the same domain.
    for (const address of [
      '\u0430nna@example.org',
      'anna@ex\u0430mple.org',
      'anna@\uff45xample.org',
      'ANNA@EXAMPLE.ORG',
    ])
      expect((await web.post('/subscribe', whole(address))).status, address).toBe(200);
    // RFC 3492: the label "example" with U+0430 for its third letter, by node:url of the Unicode UTS 46 tables.
    expect((await kept()).sort()).toEqual(
      ['anna@example.org', `anna@${domainToASCII('ex\u0430mple.org')}`, '\u0430nna@example.org'].sort(),
    );
    expect(domainToASCII('ex\u0430mple.org')).toMatch(/^xn--/);
  });

  it('of markup comes back as text', async () => {
    const evil = '"><script>alert(1)</script>';
    const form = await (
      await web.post('/subscribe', [
        ['address', evil],
        ['lake', evil],
      ])
    ).text();
    const asked = await (await web.get(`/what-if?water.main=${encodeURIComponent(evil)}`)).text();
    const home = await (await web.get('/')).text();
    for (const page of [form, asked, home]) expect(page).not.toContain('<script>alert');
    expect(asked).toContain('&lt;script&gt;');
    expect(home).toContain('Cedar &lt;Fork&gt; &amp; Co');
  });

  it('by a briefing’s text cannot break list or feed', async () => {
    await issue(web.record, '2026-03-06', '</summary><script>x</script>&\u0000');
    const feed = await (await web.get('/briefings/pine-hollow/feed.atom')).text();
    expect(feed).not.toContain('<script>');
    expect(feed).not.toContain('\u0000');
    expect(await (await web.get('/briefings/pine-hollow')).text()).not.toContain('<script>x');
  });
});

describe('paths', () => {
  it.each([
    '/briefings/../../etc/passwd',
    '/briefings/pine-hollow/..%2f..%2fetc/morning',
    '/briefings/pine-hollow/2026-03-06/..%2f..',
    '/briefings/pine-hollow/2026-03-06/morning/us/..%2f..%2f..%2fetc%2fpasswd',
    '/briefings/pine-hollow/2026-03-06/morning/us/%00',
    '/briefings/%E0%A4%A',
    '/briefings/nowhere',
    '/.env',
  ])('%s leads nowhere', async (path) => {
    await issue(web.record, '2026-03-06');
    expect([400, 404]).toContain((await web.get(path)).status);
    expect(web.faults).toEqual([]);
  });
});

describe('floods', () => {
  it('of 10,000 subscribe requests from one address end in few mails and an early no', async () => {
    let refused = 0;
    for (let i = 0; i < 10_000; i += 1) {
      const reply = await web.post('/subscribe', [['address', `a${i}@example.org`], ...WISHES]);
      if (reply.status === 429) refused += 1;
      else expect(reply.status).toBe(200);
    }
    expect(refused).toBe(9970);
    expect(await web.letters()).toHaveLength(30);
  });

  it('from many addresses still end in no more mails than an hour may send', async () => {
    web = await site();
    let refused = 0;
    for (let i = 0; i < 400; i += 1) {
      const headers = { 'x-forwarded-for': `10.0.${i >> 8}.${i & 255}` };
      const reply = await web.post('/subscribe', [['address', `b${i}@example.org`], ...WISHES], headers);
      if (reply.status === 503) refused += 1;
      else expect(reply.status).toBe(200);
    }
    // The limit is told instead of promising a mail that does not come.
    expect(refused).toBe(200);
    expect(await web.letters()).toHaveLength(200);
  });

  it('say when to come back', async () => {
    let reply = await web.post('/leave', []);
    for (let i = 0; i < 40; i += 1) reply = await web.post('/leave', []);
    expect(reply.status).toBe(429);
    expect(Number(reply.headers.get('retry-after'))).toBeGreaterThan(0);
    web.clockMs += 11 * 60_000;
    expect((await web.post('/leave', [])).status).toBe(400);
  });
});

describe('bodies', () => {
  it('that are too large are refused', async () => {
    const reply = await web.post('/subscribe', [['address', 'x'.repeat(100_000)]]);
    expect(reply.status).toBe(413);
  });

  it('that are no form are refused without a fault of ours', async () => {
    const reply = await web.app.request(`${BASE}/subscribe`, {
      method: 'POST',
      body: '{"address":1}',
      headers: { 'content-type': 'application/json', origin: BASE },
    });
    expect(reply.status).toBe(400);
    expect(web.faults).toEqual([]);
  });

  it('that drip are cut off', async () => {
    const server = await startWebServer(web.deps, 0, '127.0.0.1', {
      headersMs: 200,
      requestMs: 300,
      checkMs: 50,
    });
    try {
      const started = Date.now();
      const ended = await new Promise<string>((resolve) => {
        let said = '';
        const socket = connect(server.port, '127.0.0.1', () => {
          socket.write(
            'POST /subscribe HTTP/1.1\r\nHost: x\r\nContent-Type: application/x-www-form-urlencoded\r\nContent-Length: 100\r\n\r\na',
          );
        });
        const drip = setInterval(() => socket.write('a'), 100);
        socket.on('data', (chunk: Buffer) => (said += chunk.toString()));
        socket.on('error', () => undefined);
        socket.on('close', () => {
          clearInterval(drip);
          resolve(said);
        });
      });
      expect(ended).toMatch(/^HTTP\/1\.1 (408|403)/);
      expect(Date.now() - started).toBeLessThan(5000);
    } finally {
      await server.close();
    }
  });
});

describe('what a visitor learns', () => {
  it('is the same for a known and an unknown address', async () => {
    await web.reader('known@example.org');
    const known = await web.post('/subscribe', [['address', 'known@example.org'], ...WISHES]);
    const unknown = await web.post('/subscribe', [['address', 'unknown@example.org'], ...WISHES]);
    expect(known.status).toBe(unknown.status);
    expect(await known.text()).toBe(await unknown.text());
  });

  it('is no stack trace when something breaks', async () => {
    await web.record.close();
    const reply = await web.get('/briefings');
    web = await site();
    expect(reply.status).toBe(500);
    const text = await reply.text();
    expect(text).not.toMatch(/at .*\.ts|Error:|node_modules/);
    expect(text).toContain('is noted');
  });

  it('is guarded by the headers of every page', async () => {
    for (const path of ['/', '/subscribe', '/what-if', '/nowhere', '/briefings']) {
      const { headers } = await web.get(path);
      const policy = headers.get('content-security-policy') ?? '';
      expect(policy).toContain("default-src 'none'");
      expect(policy).toContain("frame-ancestors 'none'");
      expect(policy).not.toContain('unsafe');
      expect(headers.get('x-content-type-options')).toBe('nosniff');
      expect(headers.get('set-cookie')).toBeNull();
    }
    await issue(web.record, '2026-03-06');
    const page = await web.get('/briefings/pine-hollow/2026-03-06/morning');
    expect(page.headers.get('content-security-policy')).toMatch(
      /style-src 'self' 'unsafe-inline';.*script-src 'self'/,
    );
  });
});
