import type { Dispatcher } from 'undici';
import { ThawlineError } from '../../units/index.ts';
import { StatusCause } from './errors.ts';

export interface RawReply {
  readonly status: number;
  readonly text: string;
  readonly bytes: number;
  readonly headers: Headers;
}

export interface ExchangeOptions {
  readonly service: string;
  readonly headers: Record<string, string>;
  readonly timeoutMs: number;
  readonly maxBytes: number;
  readonly dispatcher: Dispatcher;
}

const MAX_REDIRECTS = 3;

/** One exchange without retry: time-out over headers and body, capped body, redirects only within the host. */
export async function exchange(url: URL, options: ExchangeOptions): Promise<RawReply> {
  const signal = AbortSignal.timeout(options.timeoutMs);
  let at = url;
  for (let hop = 0; hop <= MAX_REDIRECTS; hop += 1) {
    const response = await send(at, options, signal);
    const location = response.headers.get('location');
    if (response.status < 300 || response.status > 399 || response.status === 304 || location === null) {
      return read(response, options, signal);
    }
    await response.body?.cancel().catch(() => undefined);
    const next = URL.canParse(location, at.href) ? new URL(location, at) : null;
    if (next?.host !== url.host || next.protocol !== url.protocol) {
      throw new ThawlineError(
        'service',
        `${options.service} sent us to another host, which we do not follow.`,
        {
          cause: new StatusCause(response.status, 0),
        },
      );
    }
    at = next;
  }
  throw new ThawlineError('service', `${options.service} sent us round in circles.`);
}

async function send(url: URL, options: ExchangeOptions, signal: AbortSignal): Promise<Response> {
  // The dispatcher is undici's own extension of fetch and not in the standard type: the one cast of the project.
  const init = {
    headers: options.headers,
    redirect: 'manual',
    signal,
    dispatcher: options.dispatcher,
  } as unknown as RequestInit;
  try {
    return await globalThis.fetch(url, init);
  } catch (cause) {
    throw networkError(options, signal, cause);
  }
}

async function read(response: Response, options: ExchangeOptions, signal: AbortSignal): Promise<RawReply> {
  const chunks: Uint8Array[] = [];
  let bytes = 0;
  const reader = response.body?.getReader() as ReadableStreamDefaultReader<Uint8Array> | undefined;
  try {
    while (reader !== undefined) {
      const { done, value } = await reader.read();
      if (done) break;
      bytes += value.byteLength;
      if (bytes > options.maxBytes) break;
      chunks.push(value);
    }
  } catch (cause) {
    throw networkError(options, signal, cause);
  }
  if (bytes > options.maxBytes) {
    await reader?.cancel().catch(() => undefined);
    throw new ThawlineError(
      'service',
      `${options.service} sent more than ${Math.round(options.maxBytes / 1e6)} MB; the reply was dropped.`,
      { cause: new StatusCause(response.status, bytes) },
    );
  }
  return {
    status: response.status,
    text: Buffer.concat(chunks).toString('utf8'),
    bytes,
    headers: response.headers,
  };
}

function networkError(options: ExchangeOptions, signal: AbortSignal, cause: unknown): ThawlineError {
  const sentence = signal.aborted
    ? `${options.service} did not answer within ${options.timeoutMs / 1000} s.`
    : `${options.service} could not be reached, or the connection broke off.`;
  return new ThawlineError('service', sentence, { retryable: true, cause });
}
