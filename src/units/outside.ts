/** Text that others wrote: official statements, replies of services, names in a file. Shown as it is, and never trusted. */

/** Control characters but tab and line feed, and the marks that turn text around or hide in it. */
const UNSEEN =
  // eslint-disable-next-line no-control-regex -- control characters are what is looked for
  /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f\u200b\u200e\u200f\u061c\u202a-\u202e\u2060-\u2069\ufeff\ufffe\uffff]/g;

/** Text cut to a length, and whether anything was cut. */
export interface Outside {
  readonly text: string;
  readonly cut: boolean;
}

/**
 * Text of several lines from outside: line ends made one kind, no control or direction marks, at most so many
 * characters. What takes longer than reading it once is never done to more than the text that is kept.
 *
 * @param most characters kept, in UTF-16 units; a pair is never split
 */
export function outsideText(text: string, most: number): Outside {
  // Twice the length leaves room for what is taken out; a megabyte of marks is not worth more.
  const read = text.slice(0, most * 2);
  const seen = read
    .replaceAll('\r\n', '\n')
    .replaceAll('\r', '\n')
    .replaceAll('\u2028', '\n')
    .replaceAll('\u2029', '\n');
  const clean = seen.replace(UNSEEN, '').replace(/[\ud800-\udfff]/gu, '');
  return {
    text: clean.slice(0, lastWhole(clean, most)).trim(),
    cut: clean.length > most || text.length > read.length,
  };
}

/** The same on one line, ending in three dots where it was cut. */
export function outsideLine(text: string, most: number): string {
  const { text: kept, cut } = outsideText(text, most);
  const line = kept
    .split(/[\t\n ]/)
    .filter(Boolean)
    .join(' ');
  return cut ? `${line}...` : line;
}

/** Where to cut so that no surrogate pair is split. */
function lastWhole(text: string, most: number): number {
  const code = text.charCodeAt(most - 1);
  return text.length > most && code >= 0xd800 && code <= 0xdbff ? most - 1 : most;
}
