import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { serve } from '@hono/node-server';
import { createWebApp } from './app.ts';
import type { WebDeps } from './deps.ts';

export interface WebServer {
  readonly port: number;
  close(): Promise<void>;
}

/** A form of ours arrives in a second even over a poor line; a sender that drips is cut off. */
const TIMES = { headersMs: 10_000, requestMs: 15_000, checkMs: 1000 };

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
  return new Promise((resolve, reject) => {
    const server = serve(
      {
        fetch: createWebApp(deps).fetch,
        port,
        hostname,
        createServer,
        serverOptions: {
          headersTimeout: times.headersMs,
          requestTimeout: times.requestMs,
          connectionsCheckingInterval: times.checkMs,
        },
      },
      (info: AddressInfo) =>
        resolve({
          port: info.port,
          close: () =>
            new Promise((closed) => {
              server.close(() => closed());
              if ('closeAllConnections' in server) server.closeAllConnections();
            }),
        }),
    );
    server.on('error', reject);
  });
}
