/** What stands between the network and every page. */
import type { Hono, MiddlewareHandler } from 'hono';
import { bodyLimit } from 'hono/body-limit';
import { csrf } from 'hono/csrf';
import { secureHeaders } from 'hono/secure-headers';
import { PATHS } from '../delivery/index.ts';
import { BOUNCES } from './bounces.ts';
import { wordsOf } from './language.ts';
import { rateLimit, sharedRate, type RateLimit, type SharedCount } from './rateLimit.ts';
import { LOOPBACK, trustList, visitorOf } from './visitor.ts';

/** Largest body a form of ours can have, with room to spare. */
const BODY_BYTES = 16 * 1024;
const MINUTE_MS = 60_000;
/** A person needs a few tries at most; a club behind one address a few more. */
const CHANGES = { kind: 'change', most: 30, windowMs: 10 * MINUTE_MS, tellEach: 1 };
/** Told in tens: a page read costs no question to the record. */
const READS = { kind: 'read', most: 600, windowMs: MINUTE_MS, tellEach: 10 };

/** Page of one briefing: the mail's own page, whose styles stand inline because forwarding would drop any others. */
const MAIL_PAGE = new RegExp(`^${PATHS.archive}/[^/]+/[^/]+/[^/]+$`);

/** The newest issue as data and picture, which pages of others may show. */
const LATEST = /^\/lakes\/[^/]+\/latest\.[a-z]+$/;

/**
 * Referrer only to ourselves: links carry tokens. Not "no-referrer", which would also blank the Origin that the check
 * against foreign forms looks at.
 */
const headersWith = (
  styles: readonly ("'self'" | "'unsafe-inline'")[],
  resources: 'same-origin' | 'cross-origin' = 'same-origin',
): MiddlewareHandler =>
  secureHeaders({
    contentSecurityPolicy: {
      defaultSrc: ["'none'"],
      styleSrc: [...styles],
      scriptSrc: ["'self'"],
      imgSrc: ["'self'", 'data:'],
      connectSrc: ["'self'"],
      formAction: ["'self'"],
      baseUri: ["'none'"],
      frameAncestors: ["'none'"],
    },
    referrerPolicy: 'same-origin',
    xFrameOptions: 'DENY',
    crossOriginOpenerPolicy: 'same-origin',
    crossOriginResourcePolicy: resources,
    // Of this host alone: what else the operator has below the domain is not ours to promise for.
    strictTransportSecurity: `max-age=${180 * 24 * 3600}`,
  });

/** Security headers of every reply; a feed's or a picture's too. */
export function headers(): MiddlewareHandler {
  const strict = headersWith(["'self'"]);
  const mailPage = headersWith(["'self'", "'unsafe-inline'"]);
  const shared = headersWith(["'self'"], 'cross-origin');
  return (c, next) => {
    const { path } = c.req;
    return (MAIL_PAGE.test(path) ? mailPage : LATEST.test(path) ? shared : strict)(c, next);
  };
}

/**
 * 405 with what is allowed (RFC 9110, 15.5.6) where a page is asked for by a method that it does not have; a page that is
 * not there stays a 404.
 */
export function knownMethods(app: Hono): MiddlewareHandler {
  const takers = (method: string, path: string): number => app.router.match(method, path)[0].length;
  return async (c, next) => {
    const { method, path } = c.req;
    // Nothing takes DELETE: what matches it is what stands before every page.
    const before = takers('DELETE', path);
    const allowed = (['GET', 'POST'] as const).filter((one) => takers(one, path) > before);
    if (allowed.length === 0 || allowed.some((one) => one === (method === 'HEAD' ? 'GET' : method)))
      return next();
    c.header('allow', allowed.flatMap((one) => (one === 'GET' ? ['GET', 'HEAD'] : [one])).join(', '));
    return c.text(wordsOf(c).plain.notThatWay, 405);
  };
}

export const limitedBody = (): MiddlewareHandler =>
  bodyLimit({
    maxSize: BODY_BYTES,
    onError: (c) => c.text(wordsOf(c).plain.tooLarge, 413),
  });

/**
 * Forms are taken from our own pages only; the one-click address is posted to by mailbox providers and carries its own
 * proof. What a request says of its host proves nothing: a name of somebody else's may be made to lead here, and the
 * browser then calls its page one of ours.
 *
 * @param listensAt origins under which this process itself is reached on this machine
 */
export function ownForms(baseUrl: string, listensAt: () => readonly string[]): MiddlewareHandler {
  const own = new URL(baseUrl).origin;
  const check = csrf({
    origin: (origin) => origin === own || listensAt().includes(origin),
    secFetchSite: () => false,
  });
  return async (c, next) => (c.req.path === PATHS.oneClick ? next() : check(c, next));
}

/**
 * At most so many changes and reads from one address.
 *
 * @param shared where other web processes count too
 */
export function limitedRate(
  now: () => number,
  trusted: readonly string[] = LOOPBACK,
  shared?: Pick<SharedCount, 'record' | 'secret'>,
): MiddlewareHandler {
  const isTrusted = trustList(trusted);
  const limitOf = (limit: typeof CHANGES): RateLimit =>
    shared === undefined ? rateLimit(limit) : sharedRate(limit, { ...limit, ...shared });
  const changes = limitOf(CHANGES);
  const reads = limitOf(READS);
  return async (c, next) => {
    const isRead = c.req.method === 'GET' || c.req.method === 'HEAD';
    // Mail providers post for many readers from few addresses; their tokens are proof enough.
    if (!isRead && (c.req.path === PATHS.oneClick || c.req.path === BOUNCES)) return next();
    const wait = await (isRead ? reads : changes).waitS(visitorOf(c, isTrusted), now());
    if (wait === 0) return next();
    c.header('Retry-After', String(wait));
    return c.text(wordsOf(c).plain.tooMany, 429);
  };
}
