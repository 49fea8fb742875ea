/** What is a mail address: RFC 5321 section 4.1.2 and 4.5.3.1, RFC 6531 for letters beyond ASCII, UTS 46 for domains. */
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { loadConfig } from '../../src/config/index.ts';
import { buildMessage, normalAddress } from '../../src/delivery/index.ts';
import { mailAddress } from '../../src/units/index.ts';

const CONFIG = (mail: string, readers: string): string => `
lakes:
  - { id: a, name: A, position: { lat: 36, lon: -92 }, zone: America/Chicago, waterBody: highland-reservoir, meanDepth: 10 m, area: 10 km2 }
readers: ${readers}
mail: ${mail}
`;

function configOf(mail: string, readers = '[]') {
  const file = join(mkdtempSync(join(tmpdir(), 'thawline-address-')), 'thawline.yaml');
  writeFileSync(file, CONFIG(mail, readers));
  return loadConfig(file);
}

const ENVELOPE = {
  lakeId: 'a',
  localDate: '2026-03-06',
  edition: 'morning',
  readerId: 'r',
  listId: 'a.example',
} as const;
const MAIL = { subject: 's', html: '', text: 't', short: '', attachments: [] };

describe('a mail address', () => {
  it.each([
    ['ann@example.org', 'ann@example.org'],
    [' Ann@EXAMPLE.Org ', 'ann@example.org'],
    ['ann@ｅｘａｍｐｌｅ.org', 'ann@example.org'],
    ['ann@bücher.example', 'ann@xn--bcher-kva.example'],
    ['ann@xn--bcher-kva.example', 'ann@xn--bcher-kva.example'],
    ['briefing@localhost', 'briefing@localhost'],
    ['jörg+bass@example.org', 'jörg+bass@example.org'],
    ["o'neil/x=y@example.org", "o'neil/x=y@example.org"],
  ])('%j is kept as %j', (text, kept) => {
    expect(mailAddress(text)).toBe(kept);
  });

  it.each([
    '',
    'ann',
    'ann@',
    '@example.org',
    'ann@example',
    'ann@exa mple.org',
    'ann@example..org',
    '.ann@example.org',
    'ann@-example.org',
    'ann@127.0.0.1',
    'ann@[127.0.0.1]',
    'ann@example.123',
    'a@b@example.org',
    'ann@example.org\r\nBcc: x@example.org',
    'ann,bob@example.org',
    `${'a'.repeat(65)}@example.org`,
    `ann@${'a'.repeat(64)}.org`,
    `ann@${'abcdefgh.'.repeat(30)}org`,
  ])('%j is none', (text) => {
    expect(mailAddress(text)).toBeNull();
  });

  it('that the configuration takes is one that a letter can be sent to, and the other way round', async () => {
    for (const text of [
      'ann@example.org',
      'ann@ｅｘａｍｐｌｅ.org',
      'ann@localhost',
      'jörg@bücher.example',
    ]) {
      const config = await configOf('{}', `[{ address: "${text}", lakes: [a] }]`);
      expect(config.readers[0]?.address).toBe(normalAddress(text));
      expect(() => buildMessage(MAIL, { ...ENVELOPE, from: config.mail.from, to: text })).not.toThrow();
    }
    for (const text of ['ann@example', 'ann..b@example.org', 'ann@example.org.'])
      await expect(configOf('{}', `[{ address: "${text}", lakes: [a] }]`)).rejects.toThrow(
        /expected a mail address/,
      );
  });

  it('of the sender is judged by the configuration already', async () => {
    expect((await configOf('{ from: "River desk <desk@example.org>" }')).mail.from).toContain('desk@');
    await expect(configOf('{ from: "River desk" }')).rejects.toThrow(/mail.from.*expected one mail address/s);
    await expect(configOf('{ replyTo: "nobody" }')).rejects.toThrow(/expected one mail address/);
  });
});

describe('the sender of a fresh configuration', () => {
  it('passes the check of the headers', async () => {
    const { mail } = await configOf('{}');
    expect(buildMessage(MAIL, { ...ENVELOPE, from: mail.from, to: 'reader@localhost' }).from).toEqual({
      name: 'Thawline',
      address: 'briefing@localhost',
    });
  });
});
