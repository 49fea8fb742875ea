/** Signed links: who, what for, until when. Nothing is stored; raising a reader's epoch revokes all of theirs. */
import { createHmac, timingSafeEqual } from 'node:crypto';
import { DAY_MS } from '../units/time/index.ts';

/**
 * `leave-now` stands only in the header and acts on POST; `leave-ask` stands in the body, may be forwarded, and
 * only makes a confirmation go to the reader; `leave-sure` is what that confirmation carries; `tune` is the operator's,
 * printed on a terminal and never mailed; `outing` tells a day and shows none, and `own-outings`, which shows them, stands only in
 * a letter that was asked for.
 */
export const PURPOSES = [
  'confirm',
  'settings',
  'leave-now',
  'leave-ask',
  'leave-sure',
  'tune',
  'outing',
  'own-outings',
] as const;
export type Purpose = (typeof PURPOSES)[number];

/** A confirmation is answered within two days or not at all; links in a mail work for as long as people keep mails at hand. */
export const LIFE_MS: Record<Purpose, number> = {
  confirm: 2 * DAY_MS,
  settings: 45 * DAY_MS,
  'leave-now': 400 * DAY_MS,
  'leave-ask': 400 * DAY_MS,
  'leave-sure': 7 * DAY_MS,
  tune: DAY_MS,
  outing: 45 * DAY_MS,
  'own-outings': 7 * DAY_MS,
};

export interface Claim {
  readonly purpose: Purpose;
  readonly readerId: string;
  readonly epoch: number;
  readonly expiresMs: number;
}

function signature(body: string, secret: string): Buffer {
  // 128 bits of the tag: no shorter than the strength of what it guards, and links stay short.
  return createHmac('sha256', secret).update('thawline-link/1\n').update(body).digest().subarray(0, 16);
}

/** Token for a link: URL-safe, expires, holds no address. */
export function signToken(claim: Claim, secret: string): string {
  const body = Buffer.from(
    [PURPOSES.indexOf(claim.purpose), claim.readerId, claim.epoch, Math.ceil(claim.expiresMs / 1000)].join(
      '.',
    ),
  ).toString('base64url');
  return `${body}.${signature(body, secret).toString('base64url')}`;
}

export type TokenProblem = 'forged' | 'expired' | 'wrong-purpose';

/** Reads a token; the caller still compares the epoch with the reader's. */
export function readToken(
  token: string,
  purpose: Purpose,
  nowMs: number,
  secret: string,
): { ok: true; claim: Claim } | { ok: false; problem: TokenProblem } {
  const match = /^([A-Za-z0-9_-]{8,200})\.([A-Za-z0-9_-]{22})$/.exec(token);
  if (match === null) return { ok: false, problem: 'forged' };
  const [, body = '', tag = ''] = match;
  const given = Buffer.from(tag, 'base64url');
  const right = signature(body, secret);
  if (given.length !== right.length || !timingSafeEqual(given, right))
    return { ok: false, problem: 'forged' };
  const [which, readerId = '', epoch, expiresS] = Buffer.from(body, 'base64url').toString('utf8').split('.');
  if (PURPOSES[Number(which)] !== purpose) return { ok: false, problem: 'wrong-purpose' };
  const expiresMs = Number(expiresS) * 1000;
  if (!(expiresMs > nowMs)) return { ok: false, problem: 'expired' };
  return { ok: true, claim: { purpose, readerId, epoch: Number(epoch), expiresMs } };
}
