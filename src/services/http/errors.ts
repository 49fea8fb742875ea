import { outsideText, ThawlineError, trimEndOf } from '../../units/index.ts';

/** Carried as the `cause` of a ThawlineError, so that an adapter can act on the status without reading sentences. */
export class StatusCause extends Error {
  readonly status: number;
  readonly bytes: number;

  constructor(status: number, bytes: number) {
    super(`HTTP ${status}`);
    this.status = status;
    this.bytes = bytes;
  }
}

/** HTTP status behind an error of the client, or null when no reply came. */
export function statusOf(error: unknown): number | null {
  return error instanceof ThawlineError && error.cause instanceof StatusCause ? error.cause.status : null;
}

/** A reply's own reason, without addresses (they can hold tokens), on one line and short. */
function reasonIn(text: string): string {
  let body: unknown;
  try {
    body = JSON.parse(text);
  } catch {
    return '';
  }
  if (typeof body !== 'object' || body === null) return '';
  const bag = body as Record<string, unknown>;
  const inner =
    typeof bag['error'] === 'object' && bag['error'] !== null
      ? (bag['error'] as Record<string, unknown>)
      : {};
  const candidates = [
    bag['reason'],
    bag['detail'],
    inner['message'],
    bag['description'],
    bag['message'],
    bag['title'],
  ];
  const found = candidates.find((c): c is string => typeof c === 'string' && c.trim() !== '');
  return clean(found ?? '');
}

/** Characters of a reason that are looked at: more than are shown, for addresses are taken out of them. */
const READ = 1000;
const SHOWN = 160;

/** One line, no addresses, no long tokens, no control characters, at most 160 characters. Word by word: a reply may be long and made to be slow. */
export function clean(text: string): string {
  const words = outsideText(text, READ)
    .text.split(/\s/)
    .filter((word) => word !== '')
    .map((word) => {
      if (word.includes('://')) return '(address)';
      if (/api_?key|token/i.test(word) || /[A-Za-z0-9_-]{32}/.test(word)) return '(hidden)';
      return word;
    });
  return trimEndOf(words.join(' ').slice(0, SHOWN), '. ');
}

const MEANING: Readonly<Record<number, string>> = {
  400: 'the request was refused',
  401: 'a key is needed',
  403: 'access was refused; check the contact and any key in the configuration',
  404: 'it does not know this place or station',
  429: 'we asked too often',
  500: 'it has a fault of its own',
  502: 'it is not reachable behind its gateway',
  503: 'it is unavailable for now',
  504: 'it took too long behind its gateway',
};

const RETRYABLE_STATUS: ReadonlySet<number> = new Set([408, 425, 429, 500, 502, 503, 504]);

export function statusError(
  service: string,
  status: number,
  text: string,
  bytes: number,
  retryAfterMs: number | null,
): ThawlineError {
  const meaning =
    MEANING[status] ?? (status >= 500 ? 'it has a fault of its own' : 'the request was refused');
  const reason = reasonIn(text);
  return new ThawlineError(
    'service',
    `${service} answered ${status}: ${meaning}${reason === '' ? '' : ` ("${reason}")`}.`,
    {
      retryable: RETRYABLE_STATUS.has(status),
      ...(retryAfterMs === null ? {} : { retryAfterMs }),
      cause: new StatusCause(status, bytes),
    },
  );
}

/** However long a service asks us to rest, it is asked again after this: a number of many digits is a mistake there. */
const LONGEST_REST_MS = 86_400_000;

/** `Retry-After` in ms, a day at most: seconds or an HTTP date; null when absent or unreadable. */
export function retryAfterMs(header: string | null, nowMs: number): number | null {
  if (header === null) return null;
  const text = header.trim();
  if (/^\d+$/.test(text)) return Math.min(Number(text) * 1000, LONGEST_REST_MS);
  const at = Date.parse(text);
  return Number.isFinite(at) ? Math.min(Math.max(0, at - nowMs), LONGEST_REST_MS) : null;
}
