/** The pages as a part of a process: where they listen, what they are made of, and how a fault of theirs is told. */
import { isIPv6 } from 'node:net';
import type { Config } from '../config/index.ts';
import { linkSecret } from '../delivery/index.ts';
import { isChangedByNewer, isServerRecord } from '../record/index.ts';
import { type PipelineContext, sharedClock } from '../schedule/index.ts';
import { ThawlineError } from '../units/index.ts';
import { startWebServer, type WebDeps, type WebServer } from '../web/index.ts';

export interface Place {
  readonly host: string;
  readonly port: number;
}

/** Where `run` serves the pages; null where another process does. */
export function listenPlace({ listen = '127.0.0.1', port }: Config['web']): Place | null {
  if (listen === 'none') return null;
  const bracketed = /^\[([^\]]*)\](?::(\d+))?$/.exec(listen);
  const [host = '', own] = bracketed === null ? listen.split(':') : [bracketed[1], bracketed[2]];
  return { host, port: own === undefined ? port : Number(own) };
}

/** Where `web` serves them: what is written for both, else `web.port` on this machine; options come first. */
export function webPlace(web: Config['web'], { host, port }: Partial<Place>): Place {
  const written = listenPlace(web) ?? { host: '127.0.0.1', port: web.port };
  return { host: host ?? written.host, port: port ?? written.port };
}

export const addressOf = ({ host, port }: Place): string =>
  `http://${isIPv6(host) ? `[${host}]` : host}:${port}/`;

/** @throws ThawlineError `config` when the secret for links cannot be read */
export function webDeps(
  ctx: Pick<PipelineContext, 'config' | 'record' | 'rules' | 'env'>,
  onFault: (error: unknown, page: string) => void,
  now: () => number = Date.now,
): WebDeps {
  const { config, record, rules, env } = ctx;
  return { config, record, rules, env, secret: linkSecret(config, env), now, onFault };
}

/** How often the pages' clock is set by the database's. */
const CLOCK_MS = 20_000;

/**
 * The clock of the pages; where many processes share a record the database's, by which the workers go too.
 *
 * @param onNewer a newer version has changed the tables under these pages
 */
export async function pagesClock(
  { config, record }: Pick<PipelineContext, 'config' | 'record'>,
  onNewer: () => void,
): Promise<{ now: () => number; stop: () => void }> {
  if (!isServerRecord(config.recordPath)) return { now: Date.now, stop: () => undefined };
  const clock = sharedClock(record);
  await clock.set();
  const beat = async (): Promise<void> => {
    await clock.set();
    if (await isChangedByNewer(record)) onNewer();
  };
  // A database that is away is asked again; until then the clock goes on as it was set.
  const timer = setInterval(() => void beat().catch(() => undefined), CLOCK_MS);
  return { now: clock.now, stop: () => clearInterval(timer) };
}

/** @throws ThawlineError `usage` when the place is taken or cannot be listened at */
export async function servePages(deps: WebDeps, { host, port }: Place): Promise<WebServer> {
  try {
    return await startWebServer(deps, port, host);
  } catch (cause) {
    const why = cause instanceof Error ? cause.message : String(cause);
    throw new ThawlineError('usage', `Cannot listen on ${host}:${port} (${why}): choose another port.`, {
      cause,
    });
  }
}

/** A fault of the pages, for a person who reads the error channel. */
export interface PageFault {
  /** Method and pattern, never the address itself: it may hold a token. */
  readonly page: string;
  /** The how manieth of this page since the pages are served. */
  readonly times: number;
  readonly fault: string;
}

/** Counts the faults of each page, so that one that always fails is told from one that failed once. */
export function faultsOf(tell: (fault: PageFault) => void): (error: unknown, page: string) => void {
  const counts = new Map<string, number>();
  return (error, page) => {
    const times = (counts.get(page) ?? 0) + 1;
    counts.set(page, times);
    tell({ page, times, fault: error instanceof Error ? (error.stack ?? error.message) : String(error) });
  };
}
