/** Text without the given signs at its end. A pattern such as `/a+$/` takes time that grows with the square of a row of them. */
export function trimEndOf(text: string, signs: string): string {
  let end = text.length;
  while (end > 0 && signs.includes(text.charAt(end - 1))) end -= 1;
  return text.slice(0, end);
}

/** The same at both ends. */
export function trimOf(text: string, signs: string): string {
  const kept = trimEndOf(text, signs);
  let start = 0;
  while (start < kept.length && signs.includes(kept.charAt(start))) start += 1;
  return kept.slice(start);
}
