/** A mail holds at most 700 words: what a long day has too many of is left to its page, the least missed first. */
import { CUTS, mailWithout, type Extent } from './items.ts';

/** Longest mail with a reader's links, in words (our choice; common practice, no source). */
export const MAIL_WORDS = 700;

/** Room for a reader's links, which come in when the mail is sent. */
export const LINK_WORDS = 45;

/** What stands between blanks and holds a letter or a digit. */
export const wordsIn = (text: string): number =>
  text.split(/\s+/).filter((word) => /[\p{L}\p{N}]/u.test(word)).length;

/**
 * The fullest mail that fits. Dangers and the plan are never left out: words of an office may be longer than a mail.
 *
 * @param textOf the mail's text without what is named
 */
export function fittingMail(textOf: (extent: Extent) => string): Extent {
  let extent = mailWithout(0);
  for (let count = 1; count <= CUTS.length; count += 1) {
    if (wordsIn(textOf(extent)) <= MAIL_WORDS - LINK_WORDS) break;
    extent = mailWithout(count);
  }
  return extent;
}
