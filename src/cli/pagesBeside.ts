/** The pages beside the schedule: a place that is taken is tried again until it is free, as when the process that had it ended. */
import { setTimeout as pauseFor } from 'node:timers/promises';
import { ThawlineError } from '../units/index.ts';
import type { WebDeps, WebServer } from '../web/index.ts';
import { addressOf, servePages, type Place } from './pages.ts';

/** How long the links of all mails may lead nowhere after another process has ended, ms. */
const RETRY_MS = 5000;

interface Log {
  info(facts: object, text: string): void;
  error(facts: object, text: string): void;
}

export class PagesBeside {
  readonly #log: Log;
  readonly #retryMs: number;
  #server: WebServer | null = null;
  #stop = new AbortController();
  #trying: Promise<void> = Promise.resolve();

  constructor(log: Log, retryMs = RETRY_MS) {
    this.#log = log;
    this.#retryMs = retryMs;
  }

  /**
   * Serves from now on, or as soon as the place is free; a place that is taken, as by a `thawline web`, is told once and
   * the schedule goes on.
   *
   * @param place null where another process is to serve them
   */
  async serve(deps: WebDeps, place: Place | null): Promise<void> {
    await this.#endTrying();
    if (this.#server !== null && !isAt(this.#server, place)) await this.close();
    if (place === null) return;
    if (this.#server !== null) {
      this.#server.serve(deps);
      return;
    }
    const problem = await this.#open(deps, place);
    if (problem === null) return;
    this.#log.error(
      { reason: problem },
      'pages are not served here; they will be as soon as the place is free',
    );
    this.#stop = new AbortController();
    this.#trying = this.#keepTrying(deps, place, this.#stop.signal);
  }

  /** What serves pages may not ask a record that is closed. */
  async rest(): Promise<void> {
    await this.#endTrying();
    this.#server?.pause();
  }

  async close(): Promise<void> {
    await this.#endTrying();
    await this.#server?.close();
    this.#server = null;
  }

  /** @returns null when they are served, else why they are not */
  async #open(deps: WebDeps, place: Place): Promise<string | null> {
    try {
      this.#server = await servePages(deps, place);
    } catch (error) {
      if (!(error instanceof ThawlineError)) throw error;
      return error.message;
    }
    this.#log.info({ pages: addressOf({ host: place.host, port: this.#server.port }) }, 'pages are served');
    return null;
  }

  async #keepTrying(deps: WebDeps, place: Place, signal: AbortSignal): Promise<void> {
    do {
      await pauseFor(this.#retryMs, undefined, { signal }).catch(() => undefined);
    } while (!signal.aborted && (await this.#open(deps, place)) !== null);
  }

  async #endTrying(): Promise<void> {
    this.#stop.abort();
    await this.#trying;
  }
}

const isAt = (server: WebServer, place: Place | null): boolean =>
  place?.host === server.host && (place.port === server.port || place.port === 0);
