/** What a real process hands to the schedule: clock, log, transport, links. */
import { setTimeout as sleep } from 'node:timers/promises';
import pino, { type Logger } from 'pino';
import type { Config } from '../config/index.ts';
import { createSender, createTransport, linkMaker, linkSecret } from '../delivery/index.ts';
import type { RecordStore } from '../record/index.ts';
import { ownerName } from './owner.ts';
import type { Pipeline, ScheduleDeps } from './types.ts';

/** For who speaks for itself. */
export const silentLog = (): Logger => pino({ level: 'silent' });

/** Log lines as JSON on the error channel. Ids and counts only: addresses and tokens have no business in a log. */
function jsonLog(env: Readonly<Record<string, string | undefined>>): Logger {
  return pino(
    {
      level: env['THAWLINE_LOG'] ?? 'info',
      base: null,
      timestamp: pino.stdTimeFunctions.isoTime,
      redact: { paths: ['address', 'token', 'to', 'url', '*.address', '*.token'], censor: '[kept out]' },
    },
    pino.destination({ dest: 2, sync: true }),
  );
}

/**
 * Dependencies of a real run.
 *
 * @throws ThawlineError `config` when the SMTP URL is missing from the environment or the secret cannot be read
 */
export function scheduleDeps(
  config: Config,
  record: RecordStore,
  pipeline: Pipeline,
  env: Readonly<Record<string, string | undefined>>,
): ScheduleDeps {
  return {
    config,
    record,
    pipeline,
    transport: createTransport(config.mail, env),
    links: linkMaker(config.web.baseUrl, linkSecret(config, env)),
    sender: createSender(config.mail),
    owner: ownerName(),
    now: () => Date.now(),
    sleep: async (ms) => {
      await sleep(ms);
    },
    random: () => Math.random(),
    log: jsonLog(env),
    env,
  };
}
