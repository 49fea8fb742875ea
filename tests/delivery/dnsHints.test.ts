/** Hints on the sender's DNS. Record forms: RFC 7208 (SPF), RFC 6376 (DKIM), RFC 7489 (DMARC). */
import { expect, it } from 'vitest';
import { dnsHints, type TxtLookup } from '../../src/delivery/index.ts';
import { config } from './kit.ts';

const dkim = { domain: 'briefing.example', selector: 's1', keyFile: 'k' };
const mail = { ...config().mail, dkim };
const zone =
  (records: Record<string, string[]>): TxtLookup =>
  (name) =>
    records[name] === undefined
      ? Promise.reject(Object.assign(new Error(name), { code: 'ENODATA' }))
      : Promise.resolve(records[name].map((text) => [text.slice(0, 9), text.slice(9)]));
const good = {
  'briefing.example': ['some-verification=1', 'v=spf1 include:relay.example -all'],
  's1._domainkey.briefing.example': ['v=DKIM1; k=rsa; p=MIIB'],
  '_dmarc.briefing.example': ['v=DMARC1; p=none'],
};

it('finds all three where they are, also when split into several strings', async () => {
  expect((await dnsHints(mail, zone(good))).map((h) => [h.subject, h.ok])).toEqual([
    ['SPF', true],
    ['DKIM', true],
    ['DMARC', true],
  ]);
});

it('says what to publish where they are missing, doubled or revoked', async () => {
  const two = ['v=spf1 -all', 'v=spf1 ~all'];
  const bad = { 'briefing.example': two, 's1._domainkey.briefing.example': ['v=DKIM1; p='] };
  const hints = await dnsHints(mail, zone(bad));
  expect(hints.map((h) => h.ok)).toEqual([false, false, false]);
  expect(hints.map((h) => h.sentence)).toEqual([
    'briefing.example has 2 SPF records, which receivers treat as none: merge them into one.',
    's1._domainkey.briefing.example holds no public key: publish the one that belongs to mail.dkim.keyFile.',
    'briefing.example has no DMARC record: publish _dmarc.briefing.example TXT "v=DMARC1; p=none", and tighten it later.',
  ]);
});

it('does not take a silent network for a missing record', async () => {
  const silent: TxtLookup = () => Promise.reject(Object.assign(new Error('x'), { code: 'ETIMEOUT' }));
  expect((await dnsHints(mail, silent)).map((h) => h.sentence).join(' ')).not.toMatch(/publish/);
});

it('tells a domain that the name server does not know from one without records', async () => {
  const nothing: TxtLookup = () => Promise.reject(Object.assign(new Error('x'), { code: 'ENOTFOUND' }));
  const hints = await dnsHints(mail, nothing);
  expect(hints.map(({ subject, ok }) => [subject, ok])).toEqual([
    ['SPF', false],
    ['DKIM', false],
    ['DMARC', false],
  ]);
  for (const { sentence } of hints) {
    expect(sentence).toMatch(/knows no briefing\.example at all/);
    expect(sentence).not.toMatch(/publish|has no/);
  }
});

it('notices a signature of a domain that is not the sender', async () => {
  const other = { ...mail, dkim: { ...dkim, domain: 'elsewhere.example' } };
  expect((await dnsHints(other, zone(good)))[1]?.sentence).toMatch(/wants them to agree/);
});
