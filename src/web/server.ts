import { createServer } from 'node:http';
import { isIPv6, type AddressInfo } from 'node:net';
import { serve } from '@hono/node-server';
import { createWebApp } from './app.ts';
import type { WebDeps } from './deps.ts';
import { wordsOfPlace } from './language.ts';

export interface WebServer {
  readonly host: string;
  readonly port: number;
  /** Serves from another record or configuration from now on. */
  serve(deps: WebDeps): void;
  /** Answers "in a moment" until `serve` is called again. */
  pause(): void;
  close(): Promise<void>;
}

/** A form of ours arrives in a second even over a poor line; a sender that drips is cut off. */
const TIMES = { headersMs: 10_000, requestMs: 15_000, checkMs: 1000 };

const inAMoment = ({ config }: WebDeps): Response =>
  new Response(wordsOfPlace(config.lakes).web.plain.inAMoment, {
    status: 503,
    headers: { 'retry-after': '5' },
  });

/** How a browser on this machine calls what listens there. */
function originsOf(host: string, port: number): readonly string[] {
  const named = ['0.0.0.0', '::', ''].includes(host) ? [] : [isIPv6(host) ? `[${host}]` : host];
  return [...named, '127.0.0.1', 'localhost', '[::1]'].map((name) => `http://${name}:${port}`);
}

/**
 * Serves the pages over HTTP; TLS is the reverse proxy's.
 *
 * @param port 0 for any free one
 * @param times how long a request may take to arrive, ms
 */
export function startWebServer(
  deps: WebDeps,
  port: number,
  hostname = '127.0.0.1',
  times = TIMES,
): Promise<WebServer> {
  type Answer = ReturnType<typeof createWebApp>['fetch'];
  let own: readonly string[] = [];
  const answerOf = (of: WebDeps): Answer => createWebApp({ ...of, listensAt: () => own }).fetch;
  let answer: Answer = () => inAMoment(deps);
  return new Promise((resolve, reject) => {
    const server = serve(
      {
        fetch: (...request: Parameters<Answer>) => answer(...request),
        port,
        hostname,
        createServer,
        serverOptions: {
          headersTimeout: times.headersMs,
          requestTimeout: times.requestMs,
          connectionsCheckingInterval: times.checkMs,
        },
      },
      (info: AddressInfo) => {
        own = originsOf(hostname, info.port);
        // Only now: where the place is taken nothing was made, and nothing was told of it.
        answer = answerOf(deps);
        resolve({
          host: hostname,
          port: info.port,
          serve: (next) => {
            answer = answerOf(next);
          },
          pause: () => {
            answer = () => inAMoment(deps);
          },
          close: () =>
            new Promise((closed) => {
              server.close(() => closed());
              if ('closeAllConnections' in server) server.closeAllConnections();
            }),
        });
      },
    );
    server.on('error', reject);
  });
}
