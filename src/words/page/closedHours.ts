/** Hours that hazards close, as a reader is told them: what touches or overlaps is one stretch. */
import type { Words } from '../languages.ts';

interface Span {
  readonly fromMs: number;
  readonly toMs: number;
  /** Local times, `HH:MM`. */
  readonly from: string;
  readonly to: string;
}

export interface ClosedSpan extends Span {
  readonly hazard: string;
  readonly level: number;
}

/** A stretch with the spans that it is made of. */
export interface Stretch<T extends Span> extends Span {
  readonly of: readonly T[];
}

/** A hazard with the milder ones told in its block. */
interface Told {
  readonly id: string;
  readonly also?: readonly Told[];
}

/** The union of spans, in order and apart: wind from 12 to 18 and gusts from 13 to 19 close 12 to 19. */
export function stretchesOf<T extends Span>(spans: readonly T[]): Stretch<T>[] {
  const found: Stretch<T>[] = [];
  for (const span of [...spans].sort((a, b) => a.fromMs - b.fromMs)) {
    const last = found.at(-1);
    if (last === undefined || span.fromMs > last.toMs) {
      const { fromMs, toMs, from, to } = span;
      found.push({ fromMs, toMs, from, to, of: [span] });
    } else {
      const { toMs, to } = span.toMs > last.toMs ? span : last;
      found[found.length - 1] = { ...last, toMs, to, of: [...last.of, span] };
    }
  }
  return found;
}

/** What closes a stretch, each name once: several hazards may have one. */
export const namesIn = <T extends Span>(of: readonly T[], nameOf: (span: T) => string): string =>
  [...new Set(of.map(nameOf))].filter(Boolean).join(', ');

/** `09:00 to 11:00 and 17:00 to 19:00`; '' where nothing is closed. */
const closedWords = (spans: readonly Span[], { front: w }: Words): string =>
  w.hours(stretchesOf(spans).map(({ from, to }) => [from, to]));

/** A hazard of a document with those told in its block; one that was kept in sentences stands alone. */
export const toldOf = (hazard: Told & { readonly told?: object }): Told => ({
  ...hazard.told,
  id: hazard.id,
});

const idsOf = ({ id, also = [] }: Told): string[] => [id, ...also.flatMap(idsOf)];

/** The hours that a hazard and the milder ones of its block close together, in words. */
export function hazardHours(closed: readonly ClosedSpan[], hazard: Told, words: Words): string {
  const ids = new Set(idsOf(hazard));
  return closedWords(
    closed.filter((span) => ids.has(span.hazard)),
    words,
  );
}

/** The word of the highest level with all hours in which it stands, on a day that has others; else the word alone. */
export function levelHours(
  word: string,
  { level, blocks, closed }: { level: number; blocks: number; closed: readonly ClosedSpan[] },
  words: Words,
): string {
  if (level < 4 || blocks === 0) return word;
  const hours = closedWords(
    closed.filter((span) => span.level === 4),
    words,
  );
  return hours === '' ? word : words.front.dangerHours(word, hours);
}
