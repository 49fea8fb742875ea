/** What one page has told is not told again: sentence by sentence, in the order of reading. */

/** Where a sentence ends and the next begins. */
const BETWEEN_SENTENCES = /(?<=[.!?]) /;

/** The sentences of a text, in order. */
export const sentencesOf = (text: string): string[] => text.split(BETWEEN_SENTENCES);

/** Whether a sentence, or all of it as a part of another, has been told. */
export function saidBefore(line: string, told: ReadonlySet<string>): boolean {
  const core = line.replace(/[.!?]$/, '').toLowerCase();
  return [...told].some((earlier) => earlier.toLowerCase().includes(core));
}

/** Those lines that are new, marked as told from now on. */
export function fresh(lines: readonly string[], told: Set<string>): string[] {
  return lines.filter((line) => line !== '' && !saidBefore(line, told) && told.add(line));
}

/** The sentences of a text that are new, in one text; empty where all of it was told. */
export function freshSentences(text: string, told: Set<string>): string {
  return fresh(sentencesOf(text), told).join(' ');
}
