import { performance } from 'node:perf_hooks';
import { ThawlineError } from '../units/index.ts';
import type { HttpClient } from './http/types.ts';

/** Pages that each come just in time may take this many time-outs together, and no longer. */
const TIMEOUTS_IN_ALL = 6;

/**
 * A client whose requests share one limit of time: a service that answers each of many pages just in time is given up
 * like one that does not answer.
 *
 * @param timeoutMs limit of one request; the whole has six times as much
 */
export function within(client: HttpClient, timeoutMs: number): HttpClient {
  const limitMs = TIMEOUTS_IN_ALL * timeoutMs;
  const startMs = performance.now();
  return {
    ...client,
    get: async (request) => {
      if (performance.now() - startMs > limitMs) {
        throw new ThawlineError(
          'service',
          `${request.service} took more than ${limitMs / 1000} s for one answer in many parts; nothing of it was used.`,
          { retryable: true },
        );
      }
      return client.get(request);
    },
  };
}
