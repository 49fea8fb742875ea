/** The signature as a receiver checks it: RFC 6376, and RFC 8058 section 4 for the two headers that must be under it. */
import { generateKeyPairSync } from 'node:crypto';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { buildMessage, createTransport } from '../../src/delivery/index.ts';
import { config, LOCAL_DATE, rendered } from './kit.ts';
import { smtpServer } from './smtp.ts';
import { verifyDkim } from './verifyDkim.ts';

const folder = mkdtempSync(join(tmpdir(), 'dkim-'));
afterAll(() => rmSync(folder, { recursive: true }));

const keyFile = join(folder, 'key.pem');
const pair = generateKeyPairSync('rsa', { modulusLength: 2048 });
writeFileSync(keyFile, pair.privateKey.export({ type: 'pkcs8', format: 'pem' }));
const mail = { ...config().mail, dkim: { domain: 'briefing.example', selector: 's1', keyFile } };

/** What the server received: line ends and dots as on the wire. */
async function received(text: string, urlLength: number): Promise<Buffer> {
  const server = await smtpServer(() => 'accept', { keepRaw: true });
  const transport = createTransport(mail, { SMTP_URL: server.url });
  await transport.send(
    buildMessage(rendered({ text }), {
      from: mail.from,
      to: 'reader@post.example',
      lakeId: 'ossarly',
      localDate: LOCAL_DATE,
      edition: 'morning',
      readerId: 'r1',
      listId: mail.listId,
      unsubscribeUrl: `https://briefing.example/leave/now?t=${'x'.repeat(urlLength)}`,
    }),
  );
  await transport.close();
  await server.close();
  const [raw] = server.raw;
  if (raw === undefined) throw new Error('nothing was received');
  return raw;
}

describe('the DKIM signature', () => {
  it.each([10, 120, 800])(
    'holds after the way over SMTP, with an unsubscribe address of %i characters',
    async (length) => {
      const raw = await received('Trailing blanks   \n\n.a line that starts with a dot\n\n\n', length);
      expect(verifyDkim(raw, pair.publicKey)).toMatchObject({ ok: true, why: '' });
    },
  );

  it('covers both one-click headers and what the reader sees', async () => {
    const { signed } = verifyDkim(await received('x\n', 50), pair.publicKey);
    const wanted = [
      'from',
      'to',
      'subject',
      'date',
      'message-id',
      'list-id',
      'list-unsubscribe',
      'list-unsubscribe-post',
      'auto-submitted',
    ];
    expect(wanted.filter((name) => !signed.includes(name))).toEqual([]);
  });

  it('fails when body, subject or unsubscribe address were touched, or the key is another', async () => {
    const text = (await received('untouched\n', 50)).toString('latin1');
    const touched = (from: RegExp, to: string): boolean => {
      const changed = text.replace(from, to);
      expect(changed).not.toBe(text);
      return verifyDkim(Buffer.from(changed, 'latin1'), pair.publicKey).ok;
    };
    expect(touched(/untouched/, 'touched')).toBe(false);
    expect(touched(/^List-Unsubscribe: <https/m, 'List-Unsubscribe: <http')).toBe(false);
    expect(touched(/^Subject: /m, 'Subject: Re: ')).toBe(false);
    const other = generateKeyPairSync('rsa', { modulusLength: 2048 }).publicKey;
    expect(verifyDkim(Buffer.from(text, 'latin1'), other).ok).toBe(false);
  });

  it('is asked for with a clear sentence when the key file is missing', () => {
    const dkim = { domain: 'a.example', selector: 's', keyFile: join(folder, 'none.pem') };
    expect(() => createTransport({ ...mail, dkim }, { SMTP_URL: 'smtp://127.0.0.1:1' })).toThrow(
      /DKIM key file .* cannot be read/,
    );
  });
});
