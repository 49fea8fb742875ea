/** What a failed attempt means: try again, give up, or stop and call the operator. */
import { getSystemErrorMap } from 'node:util';
import { outsideLine, ThawlineError } from '../units/index.ts';

export interface Failure {
  /**
   * retry: this message later; greylisted: the same, and nobody's fault; address: the recipient does not exist;
   * refused: this message will never pass; system: nothing will pass until somebody mends something.
   */
  readonly kind: 'retry' | 'greylisted' | 'address' | 'refused' | 'system';
  readonly smtpCode?: number;
  /** One sentence without addresses, for the record and the log. */
  readonly sentence: string;
}

interface MailerError {
  readonly code?: unknown;
  readonly responseCode?: unknown;
  readonly response?: unknown;
  readonly command?: unknown;
  readonly errno?: unknown;
  /** What the TLS library found. */
  readonly reason?: unknown;
  readonly message?: unknown;
}

/** Codes of the mailer that no other message would fare better with. */
const SYSTEM_CODES = new Set(['EAUTH', 'ENOAUTH', 'EOAUTH2', 'ECONFIG', 'ETLS', 'EREQUIRETLS', 'EDNS']);

const DISK_CODES = new Set(['ENOSPC', 'EACCES', 'EROFS', 'EPERM', 'EMFILE', 'ENOTDIR', 'EISDIR']);

/** Enhanced status (RFC 3463) at the head of a reply, e.g. `5.1.1`. */
function enhanced(response: unknown): string | undefined {
  return typeof response === 'string' ? /^\d{3}[ -](\d\.\d{1,3}\.\d{1,3})\b/.exec(response)?.[1] : undefined;
}

/** Sorts an error of the mailer by the class of the SMTP reply (RFC 5321, 4.2.1; RFC 3463). */
export function classifyFailure(error: unknown): Failure {
  const found: MailerError = typeof error === 'object' && error !== null ? error : {};
  const { code, responseCode, response, command } = found;
  if (error instanceof ThawlineError) {
    const mendable = error.code === 'mail' || error.code === 'config';
    return { kind: mendable ? 'system' : 'refused', sentence: error.message };
  }
  if (typeof code === 'string' && DISK_CODES.has(code)) {
    return { kind: 'system', sentence: `The mail could not be written (${code}).` };
  }
  const smtp = typeof responseCode === 'number' ? { smtpCode: responseCode } : {};
  const at = typeof command === 'string' ? (/^[A-Z ]+/.exec(command)?.[0].trim() ?? '') : '';
  const status = enhanced(response);
  const setUp = setUpFault(found, status);
  if (setUp !== null) return { kind: 'system', ...smtp, sentence: setUp };
  if (smtp.smtpCode === undefined) return { kind: 'retry', sentence: noReply(found) };
  const said = `The mail server answered ${smtp.smtpCode}${status === undefined ? '' : ` ${status}`}${at === '' ? '' : ` to ${at}`}.`;
  if (smtp.smtpCode < 500) {
    // 450 and 451 at the recipient are what greylisting says; 421 closes the whole channel.
    const grey = at === 'RCPT TO' && smtp.smtpCode !== 421;
    return { kind: grey ? 'greylisted' : 'retry', ...smtp, sentence: said };
  }
  // 503 is a session out of step, not a verdict on the message.
  if (smtp.smtpCode === 503) return { kind: 'retry', ...smtp, sentence: said };
  if (at === 'MAIL FROM' || at === 'EHLO' || at === 'HELO' || at === 'CONN') {
    return { kind: 'system', ...smtp, sentence: said };
  }
  if (at === 'RCPT TO' && (status === undefined ? smtp.smtpCode === 550 : /^5\.1\.[1-6]$/.test(status))) {
    return { kind: 'address', ...smtp, sentence: said };
  }
  return { kind: 'refused', ...smtp, sentence: said };
}

/** What somebody has to mend in the set-up, in a sentence; null when it is not that. */
function setUpFault({ code, reason, message, responseCode }: MailerError, status?: string): string | null {
  const said = typeof message === 'string' ? message : '';
  const answer =
    typeof responseCode === 'number' ? ` (${responseCode}${status === undefined ? '' : ` ${status}`})` : '';
  if (code === 'EAUTH' || code === 'ENOAUTH' || code === 'EOAUTH2')
    return `The mail server refused the login${answer}: check user and password in the SMTP address.`;
  // The mailer replaces the code of the TLS library by its own; what remains is the library's fixed sentence.
  if (/certificate/i.test(said) && responseCode === undefined) {
    const which = CERTIFICATE_FAULTS.find(([pattern]) => pattern.test(said))?.[1] ?? 'cannot be trusted';
    return `The certificate of the mail server ${which}: name the host that it was made for, or have it renewed.`;
  }
  if (typeof reason === 'string' && responseCode === undefined)
    return `TLS with the mail server does not come about (${outsideLine(reason, 60)}): smtps:// is for port 465, smtp:// for 587.`;
  if (code === 'ETLS' || code === 'EREQUIRETLS')
    return `The mail server does not offer TLS${answer}, and a password is not sent in the clear: use its port for TLS.`;
  if (code === 'EDNS') return 'The name of the mail server is not known: check the host in the SMTP address.';
  return typeof code === 'string' && SYSTEM_CODES.has(code)
    ? `The mail server could not be used (${code}).`
    : null;
}

const CERTIFICATE_FAULTS: readonly (readonly [RegExp, string])[] = [
  [/expired/i, 'has expired'],
  [/not yet valid/i, 'is not valid yet'],
  [/does not match|altnames/i, 'is for another host'],
  [/self.signed/i, 'is signed by itself'],
];

/** Why no reply came at all. */
function noReply({ code, errno, message }: MailerError): string {
  const name = typeof errno === 'number' ? getSystemErrorMap().get(errno)?.[0] : undefined;
  if (name === 'ECONNREFUSED')
    return 'Nothing listens at the port of the mail server (ECONNREFUSED): check host and port.';
  if (typeof message === 'string' && message.startsWith('Greeting never received'))
    return 'The mail server did not greet us: a port for TLS needs smtps:// in the SMTP address.';
  const why = name ?? (typeof code === 'string' ? code : 'no reply');
  return `The connection to the mail server failed (${why}).`;
}

const MINUTE_MS = 60_000;
/** Greylisting lets a second attempt through after one to fifteen minutes (RFC 6647, 5): early attempts lie close together. */
const WAITS_MS = [1, 2, 4, 8, 15, 30, 60].map((m) => m * MINUTE_MS);

/**
 * Wait before the next attempt, ms: 1 minute rising to 1 hour, spread by up to a quarter so that a crowd does not
 * return at once.
 *
 * @param attempts attempts made so far, 1 or more
 * @param random in [0, 1)
 */
export function backOffMs(attempts: number, random: number): number {
  const wait = WAITS_MS[Math.min(attempts, WAITS_MS.length) - 1] ?? MINUTE_MS;
  return Math.round(wait * (1 + random / 4));
}
