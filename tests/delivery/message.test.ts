/**
 * The message as a strict parser and a mailbox provider see it. Sources: RFC 8058 (one click), RFC 2919 (List-Id),
 * RFC 3834 (Auto-Submitted), RFC 5322 (threading).
 */
import fc from 'fast-check';
import { simpleParser } from 'mailparser';
import { describe, expect, it } from 'vitest';
import {
  buildMessage,
  createTransport,
  messageId,
  personalise,
  type MessageEnvelope,
} from '../../src/delivery/index.ts';
import { OTHERS_MARK, PERSONAL_MARK } from '../../src/delivery/personal.ts';
import { OTHERS_MARK as TEMPLATE_OTHERS } from '../../src/render/front.ts';
import { PERSONAL_MARK as TEMPLATE_MARK } from '../../src/render/html.ts';
import { config, LOCAL_DATE, rendered } from './kit.ts';

const envelope: MessageEnvelope = {
  from: 'River desk <desk@briefing.example>',
  to: 'reader@post.example',
  lakeId: 'ossarly',
  localDate: LOCAL_DATE,
  edition: 'morning',
  readerId: 'r1',
  listId: 'ossarly.briefing.example',
  unsubscribeUrl: `https://briefing.example/leave/now?t=${'a'.repeat(300)}`,
};

async function bytes(mail = rendered(), change: Partial<MessageEnvelope> = {}): Promise<Buffer> {
  const chunks: Uint8Array[] = [];
  const stdout = { write: (part: string | Uint8Array) => chunks.push(Buffer.from(part)) };
  const out = createTransport({ ...config().mail, transport: 'stdout' }, {}, { stdout });
  await out.send(buildMessage(mail, { ...envelope, ...change }));
  return Buffer.concat(chunks);
}

const headerLines = (raw: Buffer): string[] =>
  raw
    .toString('latin1')
    .split('\r\n\r\n', 1)[0]
    ?.split(/\r\n(?![ \t])/) ?? [];

describe('a message', () => {
  it('comes back from a strict parser as it went in', async () => {
    const mail = await simpleParser(await bytes());
    expect(mail.subject).toBe(rendered().subject);
    expect(mail.text?.trim()).toBe(rendered().text.trim());
    expect(mail.html).toContain('<h1>Wärmer</h1>');
    expect(mail.from?.value).toEqual([{ name: 'River desk', address: 'desk@briefing.example' }]);
    const [picture] = mail.attachments;
    expect(picture).toMatchObject({ cid: 'trend', contentType: 'image/png', related: true });
    expect(new Uint8Array(picture?.content ?? [])).toEqual(rendered().attachments[0]?.content);
  });

  it('carries the one-click pair, List-Id and Auto-Submitted, each on one line', async () => {
    const lines = headerLines(await bytes());
    const field = (name: string): string[] =>
      lines.filter((l) => l.toLowerCase().startsWith(`${name.toLowerCase()}:`));
    expect(field('List-Unsubscribe')).toEqual([`List-Unsubscribe: <${envelope.unsubscribeUrl ?? ''}>`]);
    expect(field('List-Unsubscribe-Post')).toEqual(['List-Unsubscribe-Post: List-Unsubscribe=One-Click']);
    // Field names are case-insensitive (RFC 5322, 1.2.2).
    expect(field('List-Id').map((l) => l.toLowerCase())).toEqual(['list-id: <ossarly.briefing.example>']);
    expect(field('Auto-Submitted')).toEqual(['Auto-Submitted: auto-generated']);
  });

  it('has the same Message-ID at every attempt and another for every reader, date and edition', () => {
    const id = (change: Partial<MessageEnvelope>): string =>
      messageId({ ...envelope, ...change }, envelope.from);
    expect(id({})).toBe(id({}));
    expect(id({})).toMatch(/^<[0-9a-f]{40}@briefing\.example>$/);
    const others = [
      { readerId: 'r2' },
      { localDate: '2026-03-07' },
      { edition: 'amendment' as const },
      { lakeId: 'x' },
    ];
    expect(new Set([id({}), ...others.map(id)]).size).toBe(5);
  });

  it('threads an amendment under its briefing', async () => {
    const threadRoot = messageId(envelope, envelope.from);
    const mail = await simpleParser(await bytes(rendered(), { edition: 'amendment', threadRoot }));
    expect(mail.inReplyTo).toBe(threadRoot);
    expect(mail.references).toBe(threadRoot);
  });

  it('is plain text only in the short form', async () => {
    const mail = await simpleParser(await bytes(rendered(), { form: 'short' }));
    expect(mail.html).toBe(false);
    expect(mail.text?.trim()).toBe(rendered().short);
    expect(mail.attachments).toEqual([]);
  });

  it('lets no string out of its header, whatever a config, a name or a service says', async () => {
    const nasty = fc
      .array(
        fc.oneof(
          fc.string(),
          fc.constantFrom(
            '\r\n',
            '\n',
            '\r',
            '\u2028',
            '\u0000',
            '\r\nBcc: thief@evil.example\r\n',
            '\r\n\r\n<p>',
            'X-Evil: 1',
          ),
        ),
      )
      .map((parts) => parts.join(''));
    await fc.assert(
      fc.asyncProperty(nasty, nasty, nasty, nasty, async (subject, listId, name, filename) => {
        const mail = rendered({
          subject,
          attachments: [{ filename, contentType: 'image/png', cid: name, content: new Uint8Array([1]) }],
        });
        const raw = await bytes(mail, { listId, threadRoot: `<a@b>${name}` });
        const parsed = await simpleParser(raw);
        const known =
          /^(from|to|subject|message-id|date|mime-version|content-type|list-id|list-unsubscribe|list-unsubscribe-post|auto-submitted|in-reply-to|references|content-transfer-encoding)$/;
        expect([...parsed.headers.keys()].filter((key) => !known.test(key) && key !== 'list')).toEqual([]);
        expect(headerLines(raw).filter((l) => /^(bcc|x-evil)/i.test(l))).toEqual([]);
        expect(parsed.text?.trim()).toBe(rendered().text.trim());
      }),
      { numRuns: 120 },
    );
  });

  it.each([
    'a@b',
    'a b@post.example',
    'x@post.example, y@post.example',
    'x@post.example\r\nBcc: y@post.example',
    '<x@post.example>',
    '"q"@post.example',
    '',
  ])('takes %j for no address', (to) => {
    expect(() => buildMessage(rendered(), { ...envelope, to })).toThrow(/not a mail address/);
  });

  it('refuses a sender that is two', () => {
    expect(() => buildMessage(rendered(), { ...envelope, from: 'a@b.example, c@d.example' })).toThrow(
      /exactly one/,
    );
  });
});

describe('a personal copy', () => {
  const links = {
    settings: 'https://briefing.example/settings?t=S&u=1',
    leave: 'https://briefing.example/leave?t=L',
    subscribe: 'https://briefing.example/subscribe',
    archive: 'https://briefing.example/briefings/ossarly',
    outing: 'https://briefing.example/outing?t=O&lake=ossarly',
    reading: 'https://x.example/reading?t=r',
  };

  it('holds its links and the invitation to a friend in page, text and short form', () => {
    const mail = personalise(rendered(), links);
    expect(mail.html).toContain('href="https://briefing.example/settings?t=S&#38;u=1"');
    expect(mail.html).not.toContain('personal-links');
    for (const part of [mail.html, mail.text, mail.short]) {
      expect(part).toContain(links.leave);
      expect(part).toContain('Forwarded to you?');
      expect(part).toContain('https://briefing.example/outing?t=O&');
      expect(part).toMatch(/a day without fish counts most/i);
    }
  });

  it('leads to the whole page of its issue where there is one, else to earlier issues', () => {
    const whole = 'https://briefing.example/briefings/ossarly/2026-03-06/morning';
    for (const part of [
      personalise(rendered(), { ...links, whole }).html,
      personalise(rendered(), { ...links, whole }).text,
    ]) {
      expect(part).toContain(whole);
      expect(part).not.toMatch(/briefings\/ossarly\s|briefings\/ossarly"/);
    }
    expect(personalise(rendered(), links).text).toContain(`\n${links.archive}\n`);
  });

  it('goes where the template left room for it', () => {
    expect(PERSONAL_MARK).toBe(TEMPLATE_MARK);
    expect(OTHERS_MARK).toBe(TEMPLATE_OTHERS);
  });

  it('gets its links also when the template left no mark for them', () => {
    const mail = personalise(rendered({ html: '<html><body><p>x</p></body></html>' }), links);
    expect(mail.html).toMatch(/Stop these mails<\/a><\/p><\/body>/);
  });

  it('begins with the fronts of the reader’s other lakes, and says how many are not out', () => {
    const others = { cards: ['Pine Hollow, Fri 6 Mar\n6 to 11 am <Point>; jig'], notOut: 1 };
    const mail = personalise(rendered({ html: `<body>${OTHERS_MARK}<h1>x</h1></body>` }), links, others);
    for (const part of [mail.text, mail.short]) {
      expect(part.indexOf('YOUR OTHER LAKES TODAY')).toBe(0);
      expect(part).toContain('  6 to 11 am <Point>; jig');
      expect(part).toContain('One more is not out yet.');
    }
    expect(mail.html.indexOf('Pine Hollow')).toBeLessThan(mail.html.indexOf('<h1>'));
    expect(mail.html).toContain('6 to 11 am &#60;Point&#62;; jig');
    expect(personalise(rendered(), links).text).not.toContain('YOUR OTHER LAKES');
  });

  it('asks for a reading before anything else where the reader wishes it, and only there', () => {
    const page = rendered({ html: `<body>${OTHERS_MARK}<h1>x</h1></body>` });
    const asking = personalise(page, links, undefined, true);
    expect(asking.html.indexOf('/reading?t=r')).toBeLessThan(asking.html.indexOf('<h1>'));
    for (const part of [asking.text, asking.short])
      expect(part.startsWith('Give a reading of the water (one field')).toBe(true);
    expect(personalise(page, links).text).not.toContain('/reading?');
  });

  it('never holds the address that unsubscribes in one click', async () => {
    const raw = await bytes(personalise(rendered(), links));
    const { html, text } = await simpleParser(raw);
    expect(String(html) + String(text)).not.toContain('/leave/now');
  });
});
