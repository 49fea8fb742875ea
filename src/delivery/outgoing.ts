/** From an outbox row to a message. */
import type { SendMailOptions } from 'nodemailer';
import * as z from 'zod';
import { type ClaimedRow, loadOwnRendering, ownKey, type OwnView } from '../record/delivery/index.ts';
import { loadRendering, type RunKey } from '../record/schedule/index.ts';
import type { DeliveryRecord } from '../record/index.ts';
import { ThawlineError } from '../units/index.ts';
import { wordsFor } from '../words/index.ts';
import { messageId } from './headers.ts';
import { confirmLetter, leaveLetter, outingsLetter } from './letters.ts';
import type { LinkMaker } from './links.ts';
import { buildMessage } from './message.ts';
import { NO_OTHERS, personalise, type OtherLakes } from './personal.ts';
import type { Edition, MessageEnvelope, RenderedMail } from './types.ts';

const storedSchema = z.object({
  subject: z.string(),
  html: z.string(),
  text: z.string(),
  short: z.string(),
  card: z.string().optional(),
  language: z.string().optional(),
  attachments: z.array(
    z.object({
      filename: z.string(),
      contentType: z.string(),
      base64: z.string(),
      cid: z.string().optional(),
    }),
  ),
});

/** A rendering as JSON text for the record. */
export function packRendering(mail: RenderedMail): string {
  const attachments = mail.attachments.map(({ content, ...rest }) => ({
    ...rest,
    base64: Buffer.from(content.buffer, content.byteOffset, content.byteLength).toString('base64'),
  }));
  const { subject, html, text, short, card, language } = mail;
  return JSON.stringify({ subject, html, text, short, card, language, attachments });
}

/** A rendering as it was packed. @throws {z.ZodError} for text that `packRendering` did not write */
export function unpackRendering(json: string): RenderedMail {
  const { attachments, ...rest } = storedSchema.parse(JSON.parse(json));
  return {
    ...rest,
    attachments: attachments.map(({ base64, cid, ...a }) => ({
      ...a,
      content: Buffer.from(base64, 'base64'),
      ...(cid === undefined ? {} : { cid }),
    })),
  };
}

/** What a reader gets of an issue: units, form, and what they want otherwise than the lake has it. */
export interface AskedView extends OwnView {
  readonly units: 'us' | 'metric';
  readonly form: 'full' | 'short';
}

type Asked<T> = (key: RunKey, view: AskedView) => Promise<T | undefined>;

/** The rendering made for a view; the lake's own where none was, as for a wish of after the issue. */
async function renderingFor(
  record: DeliveryRecord,
  key: RunKey,
  view: AskedView,
): Promise<string | undefined> {
  const { units, form } = view;
  const own = ownKey(view);
  const theirs = own === '' ? undefined : await loadOwnRendering(record, key, { units, form, own });
  return theirs ?? loadRendering(record, key, units, form);
}

/** What was made of the renderings asked for last, once instead of once a reader; one that is not out is asked for again. */
function remembered<T>(record: DeliveryRecord, size: number, made: (json: string) => T): Asked<T> {
  const held = new Map<string, Promise<T | undefined>>();
  return async (key, view) => {
    const name = JSON.stringify([
      key.lakeId,
      key.localDate,
      key.edition,
      view.units,
      view.form,
      ownKey(view),
    ]);
    const known = held.get(name);
    if (known !== undefined) return known;
    const asked = renderingFor(record, key, view).then((json) =>
      json === undefined ? undefined : made(json),
    );
    held.set(name, asked);
    const [oldest] = held.keys();
    if (held.size > size && oldest !== undefined) held.delete(oldest);
    const found = await asked.catch((error: unknown) => {
      held.delete(name);
      throw error;
    });
    if (found === undefined) held.delete(name);
    return found;
  };
}

/** Renderings of the last few issues, unpacked: as many as one issue may have, so that a mailing loads each once. */
export const renderingCache = (record: DeliveryRecord): Asked<RenderedMail> =>
  remembered(record, 48, unpackRendering);

/** Their cards alone, of as many lakes as readers may have besides: they would push the renderings out. */
export const cardCache = (record: DeliveryRecord): Asked<string> =>
  remembered(record, 1024, (json) => unpackRendering(json).card ?? '');

export interface OutgoingContext {
  readonly mail: { readonly from: string; readonly replyTo?: string; readonly listId: string };
  readonly links: LinkMaker;
  readonly renderings: ReturnType<typeof renderingCache>;
  readonly cards: ReturnType<typeof cardCache>;
  /** Every lake a reader of this batch has. */
  readonly lakesOf: (readerId: string) => readonly string[];
  readonly nowMs: number;
}

/**
 * The message of a claimed row, or why there is nothing to send any more.
 *
 * @throws ThawlineError `internal` when the rendering it names is not in the record
 */
export async function messageFor(
  row: ClaimedRow,
  context: OutgoingContext,
): Promise<{ message: SendMailOptions } | { skip: string }> {
  const wanted = row.edition === 'confirm' ? 'pending' : 'active';
  if (row.reader_state !== wanted) return { skip: 'The reader no longer wants it.' };
  const { mail, links, nowMs } = context;
  const reader = { id: row.reader_id, token_epoch: row.token_epoch };
  const envelope: MessageEnvelope = {
    from: mail.from,
    to: row.address,
    lakeId: row.lake_id,
    localDate: row.local_date,
    edition: row.edition,
    readerId: row.reader_id,
    listId: mail.listId,
    form: row.form,
    ...(mail.replyTo === undefined ? {} : { replyTo: mail.replyTo }),
  };
  const words = wordsFor(row.language ?? 'en');
  if (row.edition === 'confirm') {
    return { message: buildMessage(confirmLetter(links.confirm(reader, nowMs), words), envelope) };
  }
  if (row.edition === 'leave-confirm') {
    return { message: buildMessage(leaveLetter(links.leaveSure(reader, nowMs), words), envelope) };
  }
  if (row.edition === 'outings-link') {
    return { message: buildMessage(outingsLetter(links.ownOutings(reader, nowMs), words), envelope) };
  }
  return { message: await briefingMessage(row, { ...row, edition: row.edition }, envelope, context) };
}

async function briefingMessage(
  row: ClaimedRow,
  { edition }: { edition: Edition },
  envelope: MessageEnvelope,
  context: OutgoingContext,
): Promise<SendMailOptions> {
  const { links, mail, renderings, nowMs } = context;
  const key: RunKey = { lakeId: row.lake_id, localDate: row.local_date, edition };
  const rendered = await renderings(key, row);
  if (rendered === undefined) {
    throw new ThawlineError(
      'internal',
      'The briefing this row stands for is not in the record: was it pruned too early?',
    );
  }
  const reader = { id: row.reader_id, token_epoch: row.token_epoch };
  const others = edition === 'amendment' ? NO_OTHERS : await otherLakes(row, edition, context);
  const follows = edition === 'amendment' ? { threadRoot: rootOf(row, mail.from) } : {};
  return buildMessage(
    personalise(
      rendered,
      links.body(reader, row.lake_id, nowMs, { ...key, units: row.units }),
      others,
      row.asks_reading === 1,
    ),
    {
      ...envelope,
      ...follows,
      unsubscribeUrl: links.oneClick(reader, nowMs),
    },
  );
}

/** Fronts of the reader's other lakes of the same date and edition, as far as they are out. */
async function otherLakes(
  row: ClaimedRow,
  edition: Edition,
  { lakesOf, cards: cardOf }: OutgoingContext,
): Promise<OtherLakes> {
  const ids = lakesOf(row.reader_id).filter((id) => id !== row.lake_id);
  const made = await Promise.all(
    ids.map((lakeId) => cardOf({ lakeId, localDate: row.local_date, edition }, row)),
  );
  const cards = made.flatMap((card) => (card === undefined || card === '' ? [] : [card]));
  return { cards, notOut: ids.length - cards.length };
}

/** The morning's Message-ID is made from its key, so an amendment can name it without looking it up. */
function rootOf(row: ClaimedRow, from: string): string {
  const key = { lakeId: row.lake_id, localDate: row.local_date, readerId: row.reader_id };
  return messageId({ ...key, edition: 'morning' }, from);
}
