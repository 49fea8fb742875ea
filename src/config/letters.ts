/** Letters that no name needs: controls, and marks that turn the writing or end a line without being seen. */

/** Unicode General_Category Cc and Cs, the two separators of lines, and Bidi_Control (UAX 9, 2). */
const UNSEEN = /[\p{Cc}\p{Cs}\u2028\u2029\u061C\u200E\u200F\u202A-\u202E\u2066-\u2069]/gu;

const codeOf = (letter: string): string =>
  `U+${(letter.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0')}`;

/** Name of the first such letter of a text; null where there is none. */
export function unseenLetter(text: string): string | null {
  const [found] = text.match(UNSEEN) ?? [];
  return found === undefined ? null : codeOf(found);
}

/** A text as it may be shown on a terminal. */
export const shown = (text: string): string => text.replace(UNSEEN, (letter) => `<${codeOf(letter)}>`);
