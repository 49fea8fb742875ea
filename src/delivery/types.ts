import type { Edition, OutboxKind } from '../record/schema/index.ts';

export type { Edition, OutboxKind };

export interface MailAttachment {
  readonly filename: string;
  readonly contentType: string;
  readonly content: Uint8Array;
  /** Content-ID the HTML part refers to; absent for a plain attachment. */
  readonly cid?: string;
}

/** A briefing as mail, before anything personal is put in. */
export interface RenderedMail {
  readonly subject: string;
  readonly html: string;
  readonly text: string;
  /** Short form, plain text; '' when there is none. */
  readonly short: string;
  /** The front in a few lines, for who compares several lakes; left out by issues made before there was one. */
  readonly card?: string | undefined;
  /** Left out by issues made before readers had one: English. */
  readonly language?: string | undefined;
  readonly attachments: readonly MailAttachment[];
}

/** Links of one reader. Each may be forwarded: none of them acts on a GET. */
export interface PersonalLinks {
  readonly settings: string;
  readonly leave: string;
  readonly subscribe: string;
  readonly archive: string;
  /** All of this issue; left out where it is not in the archive. */
  readonly whole?: string;
  /** Where the reader tells how the day was. */
  readonly outing: string;
  /** Where the reader gives a reading of the water: one field. */
  readonly reading: string;
}

export interface MessageEnvelope {
  /** `Name <address>` or an address. */
  readonly from: string;
  readonly to: string;
  readonly lakeId: string;
  /** `YYYY-MM-DD` at the lake. */
  readonly localDate: string;
  readonly edition: OutboxKind;
  /** Random id of the reader; with lake, date and edition it makes the Message-ID. */
  readonly readerId: string;
  readonly listId: string;
  /** One-click address (RFC 8058); only in the header, never in the body. */
  readonly unsubscribeUrl?: string;
  readonly replyTo?: string;
  /** Message-ID of the briefing this one follows. */
  readonly threadRoot?: string;
  readonly form?: 'full' | 'short';
  readonly date?: Date;
}
