/** Spellings of one vertical datum: `NAVD 88`, `NAVD-88` and `NAVD1988` are the same surface. */
function plain(name: string): string {
  return name
    .toUpperCase()
    .replace(/[^A-Z0-9]/g, '')
    .replace(/^(NAVD|NGVD)19(\d\d)$/, '$1$2');
}

/**
 * Whether two levels may be compared: null when either datum is not named.
 *
 * @param a, b names of vertical datums as a service or a person wrote them; '' or undefined for unnamed
 */
export function sameDatum(a: string | undefined, b: string | undefined): boolean | null {
  if (a === undefined || b === undefined || a === '' || b === '') return null;
  return plain(a) === plain(b);
}
