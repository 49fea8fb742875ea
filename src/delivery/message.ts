import type { SendMailOptions } from 'nodemailer';
import { headerText, headerUrl, listIdHeader, messageId, normalAddress, sender } from './headers.ts';
import type { MessageEnvelope, RenderedMail } from './types.ts';

/**
 * A rendered briefing as a message for one reader.
 *
 * Headers: Message-ID from the key; List-Id (RFC 2919); List-Unsubscribe with List-Unsubscribe-Post (RFC 8058)
 * when there is an address to post to; Auto-Submitted (RFC 3834); In-Reply-To and References for what follows
 * an earlier briefing.
 *
 * @throws ThawlineError `usage` or `config` when an address is none; no other string can break out of its header
 */
export function buildMessage(rendered: RenderedMail, envelope: MessageEnvelope): SendMailOptions {
  const from = sender(envelope.from);
  const to = normalAddress(envelope.to);
  const short = envelope.form === 'short' && rendered.short !== '';
  return {
    // Address objects are never parsed again, so a comma in a name cannot add a recipient.
    from,
    to: { name: '', address: to },
    envelope: { from: from.address, to: [to] },
    ...(envelope.replyTo === undefined ? {} : { replyTo: sender(envelope.replyTo) }),
    subject: headerText(rendered.subject),
    messageId: messageId(envelope, envelope.from),
    ...(envelope.date === undefined ? {} : { date: envelope.date }),
    ...(envelope.threadRoot === undefined
      ? {}
      : { inReplyTo: headerText(envelope.threadRoot), references: [headerText(envelope.threadRoot)] }),
    headers: {
      'List-Id': { prepared: true, value: listIdHeader(envelope.listId) },
      'Auto-Submitted': 'auto-generated',
      ...(envelope.unsubscribeUrl === undefined
        ? {}
        : {
            // One unfolded line: folded ones were reported to break signature checks.
            'List-Unsubscribe': { prepared: true, value: `<${headerUrl(envelope.unsubscribeUrl)}>` },
            'List-Unsubscribe-Post': 'List-Unsubscribe=One-Click',
          }),
    },
    text: short ? rendered.short : rendered.text,
    ...(short || rendered.html === ''
      ? {}
      : {
          html: rendered.html,
          attachments: rendered.attachments.map((a) => ({
            filename: headerText(a.filename),
            contentType: headerText(a.contentType),
            content: Buffer.from(a.content.buffer, a.content.byteOffset, a.content.byteLength),
            ...(a.cid === undefined ? {} : { cid: headerText(a.cid), contentDisposition: 'inline' }),
          })),
        }),
    // Nothing a service or a config says may make the mailer read a file or fetch an address.
    disableFileAccess: true,
    disableUrlAccess: true,
  };
}
