/** What may stand in a header. Every string from a config, a name or a service passes through here. */
import { createHash } from 'node:crypto';
import addressparser from 'nodemailer/lib/addressparser';
import { mailAddress, ThawlineError, trimOf } from '../units/index.ts';
import type { WishRefusal } from '../words/index.ts';
import type { OutboxKind } from './types.ts';

/** Control characters, line and paragraph separators, and the marks that turn text around. */
// eslint-disable-next-line no-control-regex -- control characters are what is looked for
const UNSAFE = /[\u0000-\u001f\u007f-\u009f\u2028\u2029\u200e\u200f\u202a-\u202e\u2066-\u2069]+/g;
const MAX_HEADER_CHARACTERS = 250;

/** One line of text for a header: no control character survives, length at most 250 characters. */
export function headerText(text: string): string {
  const line = text.replace(UNSAFE, ' ').replace(/\s+/g, ' ').trim();
  return Array.from(line).slice(0, MAX_HEADER_CHARACTERS).join('');
}

/**
 * Address in the form it is kept and compared in.
 *
 * @throws ThawlineError `usage` when it is not one plain address
 */
export function normalAddress(text: string): string {
  const address = mailAddress(text);
  if (address === null) {
    throw new ThawlineError(
      'usage',
      'This is not a mail address: give one address of the form name@example.org.',
      { fact: { code: 'address' } satisfies WishRefusal },
    );
  }
  return address;
}

/**
 * Sender as name and address.
 *
 * @throws ThawlineError `config` when the text holds no address or more than one
 */
export function sender(text: string): Sender {
  const known = SENDERS.get(text);
  if (known !== undefined) return known;
  const read = readSender(text);
  if (SENDERS.size >= MOST_SENDERS) SENDERS.clear();
  SENDERS.set(text, read);
  return read;
}

interface Sender {
  readonly name: string;
  readonly address: string;
}
/** A configuration has one or two, and every mail asks for them several times. */
const SENDERS = new Map<string, Sender>();
const MOST_SENDERS = 16;

function readSender(text: string): Sender {
  const [first, ...more] = addressparser(headerText(text));
  if (first === undefined || more.length > 0 || !('address' in first) || first.address === undefined) {
    throw new ThawlineError(
      'config',
      'mail.from must hold exactly one address, e.g. `River desk <desk@example.org>`.',
    );
  }
  const address = mailAddress(first.address);
  if (address === null)
    throw new ThawlineError('config', `mail.from: "${headerText(first.address)}" is not a mail address.`);
  return { name: headerText(first.name), address };
}

/** List-Id (RFC 2919): a dotted name between angle brackets. */
export function listIdHeader(listId: string): string {
  const line = headerText(listId);
  const end = line.indexOf('>');
  const inside = line.slice(line.lastIndexOf('<') + 1, end < 0 ? undefined : end);
  const name = trimOf(inside.replace(/[^A-Za-z0-9.-]/g, '-'), '.-');
  return `<${name || 'briefing.invalid'}>`;
}

/**
 * Address of a page for a header: http or https, printable ASCII only.
 *
 * @throws ThawlineError `config` when it is not such an address
 */
export function headerUrl(text: string): string {
  const url = URL.canParse(text.trim()) ? new URL(text.trim()) : null;
  if (url === null || !/^https?:$/.test(url.protocol) || url.href.length > 900) {
    throw new ThawlineError('config', 'web.baseUrl must be a plain http or https address.');
  }
  return url.href.replace(/[<>,\s]/g, (c) => encodeURIComponent(c));
}

/**
 * Message-ID that is the same at every attempt, so that a mailbox can fold a duplicate away. A digest, so that
 * nothing in it can be read or injected.
 */
export function messageId(
  key: { lakeId: string; localDate: string; edition: OutboxKind; readerId: string },
  from: string,
): string {
  const digest = createHash('sha256')
    .update(JSON.stringify([key.lakeId, key.localDate, key.edition, key.readerId]))
    .digest('hex')
    .slice(0, 40);
  const { address } = sender(from);
  const domain = address.slice(address.lastIndexOf('@') + 1);
  return `<${digest}@${domain}>`;
}
