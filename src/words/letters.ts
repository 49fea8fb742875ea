/** Letters and clocks that words of every language are put together with; pure, no words of their own. */

/** With a capital first letter. */
export const capital = (words: string): string => words.replace(/^./, (first) => first.toUpperCase());

/** Clock of an hour of the day with its part after the point: `06:30` for 6.5. */
export function clockWords(hour: number): string {
  const minutes = Math.round(hour * 60);
  const two = (value: number): string => String(value).padStart(2, '0');
  return `${two(Math.floor(minutes / 60))}:${two(minutes % 60)}`;
}
