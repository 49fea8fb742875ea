/** Only these hosts are ever linked from the page: the public services the figures come from, and licence texts. */
import { escapeHtml } from './escape.ts';
import { INLINE } from './style.ts';

const ALLOWED_HOSTS: readonly string[] = [
  'open-meteo.com',
  'usgs.gov',
  'weather.gov',
  'noaa.gov',
  'usace.army.mil',
  'data.gov.uk',
  'gov.uk',
  'weather.gc.ca',
  'ec.gc.ca',
  'canada.ca',
  'creativecommons.org',
];

/** True for an https address at one of the allowed hosts or below it, with no user name and no port. */
export function isAllowedLink(address: string): boolean {
  if (!URL.canParse(address)) return false;
  const { protocol, hostname, username, port } = new URL(address);
  return (
    protocol === 'https:' &&
    username === '' &&
    port === '' &&
    ALLOWED_HOSTS.some((host) => hostname === host || hostname.endsWith(`.${host}`))
  );
}

/** A link where the host is allowed, otherwise the words alone. */
export const sourceLink = (words: string, address: string): string =>
  isAllowedLink(address) ? anchor(words, address) : escapeHtml(words);

const anchor = (words: string, address: string): string =>
  `<a class="blue" href="${escapeHtml(address)}" style="${INLINE.link}">${escapeHtml(words)}</a>`;
