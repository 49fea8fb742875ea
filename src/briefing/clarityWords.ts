/** Clarity in words: a class with its confidence; a number stands beside it only where something measured one. */
import type { SignalReport } from '../signals/types.ts';
import type { Messages } from '../words/index.ts';

/** `stained, a guess`, to print in place of a number that nobody measured; undefined where one was measured. */
export function clarityWords({ clarity }: SignalReport, m: Messages): string | undefined {
  if (clarity === undefined || clarity.measured) return undefined;
  return m.clarity.guess(m.clarity.class[clarity.class]);
}

/** The class beside a measured number, the confidence, and what both rest on. */
export function clarityNote({ clarity }: SignalReport, m: Messages): string | undefined {
  if (clarity === undefined) return undefined;
  const { confidence, because } = clarity;
  return clarity.measured
    ? m.clarity.measured(m.clarity.class[clarity.class], confidence, because)
    : m.clarity.notMeasured(confidence, because);
}
