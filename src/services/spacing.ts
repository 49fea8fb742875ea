import { item } from '../units/index.ts';

/** The recorder's interval: the commonest step between instants in order of time, s; null when there are too few to tell. */
export function spacingS(timesMs: readonly number[]): number | null {
  const counts = new Map<number, number>();
  for (let i = 1; i < timesMs.length; i += 1) {
    const step = (item(timesMs, i) - item(timesMs, i - 1)) / 1000;
    if (step > 0) counts.set(step, (counts.get(step) ?? 0) + 1);
  }
  const [best] = [...counts].sort((a, b) => b[1] - a[1] || a[0] - b[0]);
  return best?.[0] ?? null;
}
