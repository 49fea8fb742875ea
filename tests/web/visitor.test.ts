/** By which address a visitor is counted: RFC 6177 (a /64 at least for a site), RFC 7239 and common practice for proxies. */
import { afterEach, describe, expect, it } from 'vitest';
import { startWebServer, type WebServer } from '../../src/web/index.ts';
import { countedBy, trustList } from '../../src/web/visitor.ts';
import { CONFIG, site } from './kit.ts';

let server: WebServer | undefined;
afterEach(() => server?.close());

describe('an address', () => {
  it.each([
    ['203.0.113.9', '203.0.113.9'],
    ['::ffff:203.0.113.9', '203.0.113.9'],
    ['2001:db8:1:2:3:4:5:6', '2001:db8:1:2::/64'],
    ['2001:0DB8:0001:0002:ffff::1', '2001:db8:1:2::/64'],
    ['2001:db8::1', '2001:db8:0:0::/64'],
    ['::1', '0:0:0:0::/64'],
    ['fe80::1%eth0', 'fe80:0:0:0::/64'],
    ['64:ff9b::203.0.113.9', '64:ff9b:0:0::/64'],
  ])('%s is counted as %s', (address, counted) => {
    expect(countedBy(address)).toBe(counted);
  });

  it('is trusted by itself or by its network', () => {
    const isTrusted = trustList(['10.0.0.0/8', '192.0.2.7', 'fd00::/8']);
    for (const address of ['10.1.2.3', '::ffff:10.1.2.3', '192.0.2.7', 'fd12::1'])
      expect(isTrusted(address)).toBe(true);
    for (const address of ['11.0.0.1', '192.0.2.8', '::1', 'nonsense', ''])
      expect(isTrusted(address)).toBe(false);
  });

  it.each(['proxy.example.org', '10.0.0.0/33', 'fd00::/x', '10.0.0.0/8/8'])(
    '%j is refused as a network',
    (text) => {
      expect(() => trustList([text])).toThrow(/web.trustProxy/);
    },
  );
});

/** Changes that pass before the limit, each asked with its own header. */
async function passing(
  trustProxy: readonly string[],
  forwarded: (n: number) => string,
  most = 40,
): Promise<number> {
  const web = await site({ ...CONFIG, web: { ...CONFIG.web, trustProxy } });
  server = await startWebServer(web.deps, 0);
  for (let n = 0; n < most; n += 1) {
    const { status } = await fetch(`http://127.0.0.1:${server.port}/leave/sure`, {
      method: 'POST',
      body: new URLSearchParams({ t: 'x' }),
      headers: { origin: CONFIG.web.baseUrl, 'x-forwarded-for': forwarded(n) },
    });
    if (status === 429) return n;
  }
  return most;
}

describe('the limit', () => {
  it('counts a whole /64 of IPv6 as one visitor, and two of them as two', async () => {
    expect(await passing(['127.0.0.0/8'], (n) => `2001:db8:5:5::${n.toString(16)}`)).toBe(30);
    await server?.close();
    expect(await passing(['127.0.0.0/8'], (n) => `2001:db8:5:${n % 2}::1`)).toBe(40);
  });

  it('does not believe a header from who is not trusted', async () => {
    expect(await passing(['10.0.0.7'], (n) => `203.0.113.${n}`)).toBe(30);
  });

  it('does not believe what stands left of the first address that is not trusted', async () => {
    expect(
      await passing(['127.0.0.0/8', '10.0.0.0/8'], (n) => `198.51.100.${n}, 203.0.113.9, 10.0.0.2`),
    ).toBe(30);
  });
});

describe('an answer to who subscribes', () => {
  it('takes the same time whether the address is known or not', async () => {
    const web = await site(CONFIG, {});
    await web.reader('known@example.org');
    const asked = async (address: string): Promise<number> => {
      const started = performance.now();
      const fields = [
        ['address', address],
        ['lake', 'pine-hollow'],
        ['day', '1'],
      ] as const;
      expect((await web.post('/subscribe', fields)).status).toBe(200);
      return performance.now() - started;
    };
    // The floor of 250 ms hides the writing, which takes a few; both answers wait for it.
    for (const address of ['known@example.org', 'unknown@example.org'])
      expect(await asked(address)).toBeGreaterThanOrEqual(245);
  });
});
