/**
 * DKIM check written from RFC 6376 alone (sections 3.4.2, 3.4.4, 3.5, 3.7) with node:crypto; it shares no code with
 * the signer. Relaxed and simple canonicalisation, rsa-sha256 and ed25519-sha256 (RFC 8463).
 */
import { createHash, createPublicKey, verify, type KeyObject } from 'node:crypto';

interface Field {
  readonly name: string;
  readonly raw: string;
}

function split(message: string): { fields: Field[]; body: string } {
  const end = message.indexOf('\r\n\r\n');
  const lines = message
    .slice(0, end + 2)
    .split(/\r\n(?![ \t])/)
    .filter((l) => l !== '');
  const fields = lines.map((raw) => ({ name: raw.slice(0, raw.indexOf(':')).trim().toLowerCase(), raw }));
  return { fields, body: message.slice(end + 4) };
}

const relaxedHeader = (raw: string): string => {
  const colon = raw.indexOf(':');
  const value = raw
    .slice(colon + 1)
    .replace(/\r\n/g, '')
    .replace(/[ \t]+/g, ' ')
    .trim();
  return `${raw.slice(0, colon).trim().toLowerCase()}:${value}`;
};

function relaxedBody(body: string): string {
  const lines = body.split('\r\n').map((line) => line.replace(/[ \t]+/g, ' ').replace(/ $/, ''));
  while (lines.length > 0 && lines.at(-1) === '') lines.pop();
  return lines.length === 0 ? '' : lines.join('\r\n') + '\r\n';
}

const simpleBody = (body: string): string => body.replace(/(\r\n)*$/, '') + '\r\n';

/** @param publicKey of the signing domain, as its DNS record would publish it */
export function verifyDkim(
  raw: Buffer,
  publicKey: KeyObject | string,
): { ok: boolean; signed: string[]; why: string } {
  const message = raw.toString('latin1');
  const { fields, body } = split(message);
  const signature = fields.find((f) => f.name === 'dkim-signature');
  if (signature === undefined) return { ok: false, signed: [], why: 'no signature' };
  const tags = new Map(
    signature.raw
      .slice(signature.raw.indexOf(':') + 1)
      .replace(/\r\n/g, '')
      .split(';')
      .map((tag) => [
        tag.slice(0, tag.indexOf('=')).trim(),
        tag.slice(tag.indexOf('=') + 1).replace(/\s/g, ''),
      ]),
  );
  const [headerCanon, bodyCanon = 'simple'] = (tags.get('c') ?? 'simple/simple').split('/');
  const canonBody = bodyCanon === 'relaxed' ? relaxedBody(body) : simpleBody(body);
  const hash = createHash('sha256').update(canonBody, 'latin1').digest('base64');
  const signed = (tags.get('h') ?? '').toLowerCase().split(':');
  if (hash !== tags.get('bh')) return { ok: false, signed, why: 'body hash differs' };
  // Fields named more than once are taken from the bottom up (5.4.2).
  const left = new Map<string, Field[]>();
  for (const f of fields) left.set(f.name, [...(left.get(f.name) ?? []), f]);
  const canon = headerCanon === 'relaxed' ? relaxedHeader : (s: string): string => s;
  const lines = signed.flatMap((name) => {
    const field = left.get(name)?.pop();
    return field === undefined ? [] : [canon(field.raw) + '\r\n'];
  });
  const bare = canon(signature.raw.replace(/(;\s*b=)[^;]*/, '$1')).replace(/\r\n$/, '');
  const input = Buffer.from(lines.join('') + bare, 'latin1');
  const key = typeof publicKey === 'string' ? createPublicKey(publicKey) : publicKey;
  const b = Buffer.from(tags.get('b') ?? '', 'base64');
  const ok =
    tags.get('a') === 'ed25519-sha256'
      ? verify(null, createHash('sha256').update(input).digest(), key, b)
      : verify('sha256', input, key, b);
  return { ok, signed, why: ok ? '' : 'signature does not match' };
}
