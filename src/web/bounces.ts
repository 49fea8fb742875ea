import { createHash, randomUUID, timingSafeEqual } from 'node:crypto';
import { Hono, type MiddlewareHandler } from 'hono';
import { bearerAuth } from 'hono/bearer-auth';
import { z } from 'zod';
import { handleBounces, takeBounce } from '../delivery/index.ts';
import { isServerRecord } from '../record/index.ts';
import { ThawlineError } from '../units/index.ts';
import type { WebDeps } from './deps.ts';
import { wordsOf } from './language.ts';

export const BOUNCES = '/bounces';

const DEFAULT_ENV = 'THAWLINE_BOUNCES_SECRET';
const MIN_CHARACTERS = 32;

const reportSchema = z.strictObject({
  address: z.string().max(320),
  kind: z.enum(['hard', 'soft', 'complaint']),
  reportId: z.string().min(1).max(200).optional(),
});
type Report = z.output<typeof reportSchema>;

const digest = (text: string): Buffer => createHash('sha256').update(text).digest();

/** The same for every secret that is offered: digests have one length, and all of it is compared. */
function bearerOf(secret: string): MiddlewareHandler {
  const right = digest(secret);
  return bearerAuth({ verifyToken: (offered) => timingSafeEqual(digest(offered), right) });
}

/** The secret of the environment; undefined, with a word to the operator, when it is too short to keep anyone out. */
function secretOf(deps: WebDeps): string | undefined {
  const name = deps.config.web.bouncesEnv ?? DEFAULT_ENV;
  const secret = (deps.env ?? process.env)[name]?.trim() ?? '';
  if (secret === '') return undefined;
  if (secret.length >= MIN_CHARACTERS) return secret;
  deps.onFault?.(
    new ThawlineError(
      'config',
      `Bounce reports are not taken: give ${name} at least 32 random characters (e.g. from \`openssl rand -hex 32\`) and start again.`,
    ),
    `POST ${BOUNCES}`,
  );
  return undefined;
}

/** Undefined when the text is not a report; what is wrong with it is not repeated, for it may hold an address. */
function reportOf(text: string): Report | undefined {
  try {
    return reportSchema.safeParse(JSON.parse(text)).data;
  } catch {
    return undefined;
  }
}

/**
 * Takes reports of undeliverable mail and complaints from the mail provider. Without a secret in the environment there
 * is no such page. The reply is the same whether or not the address is known.
 */
export function bouncePages(deps: WebDeps): Hono {
  const app = new Hono();
  const secret = secretOf(deps);
  if (secret === undefined) return app;
  const hasWorkers = isServerRecord(deps.config.recordPath);
  app.post(BOUNCES, bearerOf(secret), async (c) => {
    const report = reportOf(await c.req.text());
    if (report === undefined) return c.text(`${wordsOf(c).plain.bounce}\n`, 400);
    const { address, kind, reportId } = report;
    // A report sent again on a later day would count as a second day of bounces.
    const id =
      reportId === undefined
        ? randomUUID()
        : digest(JSON.stringify([reportId, kind, address])).toString('base64url');
    try {
      await takeBounce(deps.record, { id, address, kind }, deps.now());
      // Where there are workers it is their job, and done before the next mail leaves.
      if (!hasWorkers) await handleBounces(deps.record, deps.now());
    } catch (error) {
      if (error instanceof ThawlineError && error.code === 'usage')
        return c.text(`${wordsOf(c).plain.bounce}\n`, 400);
      throw error;
    }
    return c.body(null, 204);
  });
  return app;
}
