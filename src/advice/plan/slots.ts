/** A half hour of the fishing day, or what the ends and the hazards leave of one. */
export interface Slot {
  readonly fromMs: number;
  readonly toMs: number;
  /** No hazard forbids it. */
  readonly open: boolean;
  /** Place in the list of hours; its conditions. */
  readonly hour: number;
}

const HALF_HOUR_MS = 30 * 60_000;
const ROUND_MS = 5 * 60_000;

interface Stretch {
  readonly fromMs: number;
  readonly toMs: number;
}

/** Fishing hours inside a stretch of light: never earlier, never later, to five minutes. */
export function rounded({ fromMs, toMs }: Stretch): Stretch {
  return { fromMs: Math.ceil(fromMs / ROUND_MS) * ROUND_MS, toMs: Math.floor(toMs / ROUND_MS) * ROUND_MS };
}

/**
 * The fishing hours cut at every half hour, at the hours' own starts and where a hazard begins or ends.
 *
 * @param closed stretches that no block may touch
 */
export function slotsOf(fishing: Stretch, hours: readonly Stretch[], closed: readonly Stretch[]): Slot[] {
  const { fromMs, toMs } = fishing;
  if (toMs <= fromMs) return [];
  const cuts = new Set([fromMs, toMs]);
  for (let at = Math.ceil(fromMs / HALF_HOUR_MS) * HALF_HOUR_MS; at < toMs; at += HALF_HOUR_MS) cuts.add(at);
  for (const stretch of [...hours, ...closed]) {
    for (const at of [stretch.fromMs, stretch.toMs]) if (at > fromMs && at < toMs) cuts.add(at);
  }
  const ordered = [...cuts].sort((a, b) => a - b);
  return ordered.slice(0, -1).map((from, index) => {
    const to = ordered[index + 1] ?? toMs;
    const inside = (stretch: Stretch): boolean => stretch.fromMs <= from && stretch.toMs >= to;
    return {
      fromMs: from,
      toMs: to,
      open: !closed.some((stretch) => stretch.fromMs < to && stretch.toMs > from),
      hour: hours.findIndex(inside),
    };
  });
}
