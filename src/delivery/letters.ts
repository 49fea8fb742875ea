/** The letters that carry a link which no briefing may carry, since briefings are forwarded. Plain text only: nothing to load, nothing to hide. */
import type { Words } from '../words/index.ts';
import type { RenderedMail } from './types.ts';

export const confirmLetter = (link: string, { mail }: Words): RenderedMail =>
  plain(mail.confirm.subject, mail.confirm.lines(link));

export const leaveLetter = (link: string, { mail }: Words): RenderedMail =>
  plain(mail.leave.subject, mail.leave.lines(link));

export const outingsLetter = (link: string, { mail }: Words): RenderedMail =>
  plain(mail.outings.subject, mail.outings.lines(link));

function plain(subject: string, lines: readonly string[]): RenderedMail {
  return { subject, html: '', text: [...lines, ''].join('\n'), short: '', attachments: [] };
}
