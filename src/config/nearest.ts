/** How many single-letter edits lie between two short words. */
function editDistance(a: string, b: string): number {
  let row = Array.from({ length: b.length + 1 }, (_, index) => index);
  for (const [i, letter] of Array.from(a).entries()) {
    const next = [i + 1];
    for (const [j, other] of Array.from(b).entries()) {
      next.push(
        Math.min((row[j] ?? 0) + (letter === other ? 0 : 1), (row[j + 1] ?? 0) + 1, (next[j] ?? 0) + 1),
      );
    }
    row = next;
  }
  return row[b.length] ?? 0;
}

/** A slip of the finger in one part of a name of several: `resevoir` of `highland-reservoir`. */
const LEAST_PART = 5;
const hasPart = (name: string, word: string): boolean =>
  word.length >= LEAST_PART &&
  name.split(/[-_ ]/).length > 1 &&
  name
    .split(/[-_ ]/)
    .some((part) => part.length >= LEAST_PART && editDistance(word.toLowerCase(), part) <= 2);

/** The nearest allowed word, when it is near enough to be a slip of the finger. */
export function nearest(word: string, allowed: readonly string[]): string | null {
  const ranked = allowed
    .map((name) => ({ name, edits: editDistance(word.toLowerCase(), name.toLowerCase()) }))
    .sort((a, b) => a.edits - b.edits);
  const best = ranked[0];
  // With every letter another it is no slip.
  const most = Math.min(Math.max(2, Math.floor(word.length / 3)), word.length - 1);
  if (best && best.edits <= most) return best.name;
  return allowed.find((name) => hasPart(name, word)) ?? null;
}
