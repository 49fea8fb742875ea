import type { RunKey } from '../record/schedule/index.ts';
import { trimEndOf, type UnitSystem } from '../units/index.ts';
import { LIFE_MS, signToken, type Purpose } from './tokens.ts';
import type { PersonalLinks } from './types.ts';

/** Where the pages are; shared by mail and web so that a link and its page cannot part. */
export const PATHS = {
  subscribe: '/subscribe',
  confirm: '/confirm',
  settings: '/settings',
  ownOutings: '/settings/outings',
  leave: '/leave',
  leaveSure: '/leave/sure',
  oneClick: '/leave/now',
  archive: '/briefings',
  tune: '/tune',
  outing: '/outing',
  reading: '/reading',
} as const;

/** An issue as its permanent page is asked for. */
export interface Issue extends RunKey {
  readonly units?: UnitSystem;
}

/** Where an issue stays, below the base address. */
export const permalink = ({ lakeId, localDate, edition, units }: Issue): string =>
  `${PATHS.archive}/${encodeURIComponent(lakeId)}/${localDate}/${edition}${units === 'metric' ? '?units=metric' : ''}`;

/** Whom the links of a trial mail name: they open pages that say so, and change nothing. */
export const NOBODY = { id: '00000000-0000-0000-0000-000000000000', token_epoch: 1 } as const;

export interface LinkMaker {
  /**
   * Links for the body of a mail.
   *
   * @param issue what the mail brings; left out for a trial, which nobody can look up
   */
  body(
    reader: { id: string; token_epoch: number },
    lakeId: string,
    nowMs: number,
    issue?: Issue,
  ): PersonalLinks;
  /** Address for the List-Unsubscribe header. */
  oneClick(reader: { id: string; token_epoch: number }, nowMs: number): string;
  confirm(reader: { id: string; token_epoch: number }, nowMs: number): string;
  leaveSure(reader: { id: string; token_epoch: number }, nowMs: number): string;
  ownOutings(reader: { id: string; token_epoch: number }, nowMs: number): string;
  /** For the operator alone, to be printed on a terminal. */
  tune(nowMs: number): string;
}

/** Links under the base address, signed with the secret. Expiry is rounded up to whole days: one day's links are equal. */
export function linkMaker(baseUrl: string, secret: string): LinkMaker {
  const root = trimEndOf(baseUrl, '/');
  const signed = (
    path: string,
    purpose: Purpose,
    reader: { id: string; token_epoch: number },
    nowMs: number,
  ): string => {
    const expiresMs = Math.ceil((nowMs + LIFE_MS[purpose]) / 86_400_000) * 86_400_000;
    const claim = { purpose, readerId: reader.id, epoch: reader.token_epoch, expiresMs };
    return `${root}${path}?t=${signToken(claim, secret)}`;
  };
  return {
    body: (reader, lakeId, nowMs, issue) => ({
      settings: signed(PATHS.settings, 'settings', reader, nowMs),
      leave: signed(PATHS.leave, 'leave-ask', reader, nowMs),
      subscribe: root + PATHS.subscribe,
      archive: `${root}${PATHS.archive}/${encodeURIComponent(lakeId)}`,
      ...(issue === undefined ? {} : { whole: root + permalink(issue) }),
      outing: `${signed(PATHS.outing, 'outing', reader, nowMs)}&lake=${encodeURIComponent(lakeId)}`,
      reading: `${signed(PATHS.reading, 'outing', reader, nowMs)}&lake=${encodeURIComponent(lakeId)}`,
    }),
    oneClick: (reader, nowMs) => signed(PATHS.oneClick, 'leave-now', reader, nowMs),
    confirm: (reader, nowMs) => signed(PATHS.confirm, 'confirm', reader, nowMs),
    leaveSure: (reader, nowMs) => signed(PATHS.leaveSure, 'leave-sure', reader, nowMs),
    ownOutings: (reader, nowMs) => signed(PATHS.ownOutings, 'own-outings', reader, nowMs),
    tune: (nowMs) => signed(PATHS.tune, 'tune', { id: 'operator', token_epoch: 1 }, nowMs),
  };
}
