/** A made briefing as files and as text: what `brief` and `demo` put out. */
import { join } from 'node:path';
import { createTransport } from 'nodemailer';
import type { KeptDocument } from '../words/index.ts';
import type { Config } from '../config/index.ts';
import { buildMessage, type MessageEnvelope, type RenderedMail } from '../delivery/index.ts';
import type { BriefingInFull } from '../render/index.ts';
import { writeWhole } from './output.ts';

export const FORMATS = ['text', 'html', 'json', 'eml'] as const;
export type Format = (typeof FORMATS)[number];

export interface Written {
  readonly files: readonly string[];
}

/** Envelope of a mail that is written to a file: no reader, hence no personal link. */
export function envelopeFor(
  config: Config,
  lakeId: string,
  document: KeptDocument,
  to: string,
): MessageEnvelope {
  return {
    from: config.mail.from,
    to,
    lakeId,
    localDate: document.date,
    edition: 'morning',
    readerId: 'file',
    listId: config.mail.listId,
    date: new Date(document.issuedMs),
  };
}

/** The whole mail as a file that a mail program opens. */
export async function toEml(mail: RenderedMail, envelope: MessageEnvelope): Promise<Buffer> {
  const transport = createTransport({ streamTransport: true, buffer: true, newline: 'windows' });
  const sent = await transport.sendMail(buildMessage(mail, envelope));
  const { message } = sent;
  return Buffer.isBuffer(message) ? message : Buffer.from(await message.toArray());
}

/** Every form of a briefing under one folder, named by lake and date. */
export async function writeBriefing(
  { mail, whole }: BriefingInFull,
  folder: string,
  stem: string,
  envelope: MessageEnvelope,
  formats: readonly Format[] = FORMATS,
): Promise<Written> {
  const files: string[] = [];
  const write = (name: string, content: string | Buffer, whose: 'private' | 'plain' = 'plain'): void => {
    const path = join(folder, name);
    writeWhole(path, content, whose);
    files.push(path);
  };
  for (const format of formats) {
    if (format === 'text') write(`${stem}.txt`, whole.text);
    if (format === 'json') write(`${stem}.json`, whole.json);
    if (format === 'html') {
      // Opened from a folder, a page finds its pictures beside it instead of inside the mail.
      let { html } = whole;
      for (const picture of whole.attachments) {
        html = html.replaceAll(`cid:${picture.cid}`, `${stem}-${picture.filename}`);
        write(`${stem}-${picture.filename}`, picture.content);
      }
      write(`${stem}.html`, html);
    }
    if (format === 'eml') write(`${stem}.eml`, await toEml(mail, envelope), 'private');
  }
  return { files };
}
