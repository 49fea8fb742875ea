import { grouped, shareOf, type Scored } from './fish-rank.ts';
import { sumOf, type Contributions } from './fish-site.ts';

/** What the fish say of one rule. */
export interface RuleVerdict {
  readonly rule: string;
  /** Events in which it spoke. */
  readonly n: number;
  /** Catch where the rule gives one point more, over that where it does not, all else of the score alike. */
  readonly ratio: number;
  /** 5 to 95 %, from how much pool-years disagree. */
  readonly low: number;
  readonly high: number;
  /** Share of pairs in order without it. */
  readonly without: number;
}

/** Fewer events than this say nothing of a rule. */
const FEWEST = 30;
const STEPS = 12;

/** First and second derivative of the likelihood of each group, at one coefficient of x beside an offset. */
function derivatives(
  groups: ReadonlyMap<string, readonly { x: number; offset: number; caught: number }[]>,
  slope: number,
): Map<string, { gradient: number; information: number }> {
  return new Map(
    [...groups].map(([group, events]) => {
      const total = events.reduce((sum, { caught }) => sum + caught, 0);
      const weights = events.map(({ x, offset }) => Math.exp(offset + slope * x));
      const whole = weights.reduce((sum, weight) => sum + weight, 0);
      const mean = events.reduce((sum, { x }, i) => sum + x * weights[i]!, 0) / whole;
      const square = events.reduce((sum, { x }, i) => sum + x * x * weights[i]!, 0) / whole;
      const seen = events.reduce((sum, { x, caught }) => sum + x * caught, 0);
      return [group, { gradient: seen - total * mean, information: total * (square - mean * mean) }];
    }),
  );
}

interface Slope {
  readonly at: number;
  readonly error: number;
}

/** Log rate of catch a unit of x, within groups; its error from how much pool-years disagree. */
export function slopeOf(
  scored: readonly Scored[],
  x: readonly number[],
  offset: readonly number[] = x.map(() => 0),
): Slope {
  const rows = scored.map((event, i) => ({
    group: event.group,
    block: event.block,
    x: x[i]!,
    offset: offset[i]!,
    caught: Math.min(event.caught, MOST_A_MINUTE),
  }));
  const groups = grouped(rows, ({ group }) => group);
  const blockOf = new Map(rows.map(({ group, block }) => [group, block]));
  let at = 0;
  for (let step = 0; step < STEPS; step++) {
    let gradient = 0;
    let information = 1e-6;
    for (const found of derivatives(groups, at).values()) {
      gradient += found.gradient;
      information += found.information;
    }
    const move = Math.max(-1, Math.min(1, gradient / information));
    at += move;
    if (Math.abs(move) < 1e-4) break;
  }
  const blocks = new Map<string, number>();
  let information = 1e-6;
  for (const [group, found] of derivatives(groups, at)) {
    const block = blockOf.get(group) ?? group;
    blocks.set(block, (blocks.get(block) ?? 0) + found.gradient);
    information += found.information;
  }
  const spread = [...blocks.values()].reduce((sum, gradient) => sum + gradient * gradient, 0);
  return { at, error: Math.sqrt(spread) / information };
}

/** One school may not decide: more fish a minute than this count as this many. */
const MOST_A_MINUTE = 0.4;
const Z90 = 1.645;

/** Log rate of catch that a point of the whole score is worth. */
export function ratioOfAPoint(scored: readonly Scored[]): number {
  return slopeOf(
    scored,
    scored.map(({ score }) => score),
  ).at;
}

/** Every rule that spoke in enough events, the most frequent first. */
export function judgeRules(scored: readonly Scored[], parts: readonly Contributions[]): RuleVerdict[] {
  const whole = ratioOfAPoint(scored);
  const rules = new Set(parts.flatMap((part) => [...part.keys()]));
  return [...rules]
    .flatMap((rule): RuleVerdict[] => {
      const x = parts.map((part) => part.get(rule) ?? 0);
      const n = x.filter((value) => Math.abs(value) > 0.02).length;
      if (n < FEWEST) return [];
      // What all other rules say stands beside it, at the worth of a point of the whole.
      const offset = parts.map((part, i) => whole * (sumOf(part) - x[i]!));
      const { at, error } = slopeOf(scored, x, offset);
      return [
        {
          rule,
          n,
          ratio: Math.exp(at),
          low: Math.exp(at - Z90 * error),
          high: Math.exp(at + Z90 * error),
          without: shareOf(scored.map((event, i) => ({ ...event, score: event.score - x[i]! }))),
        },
      ];
    })
    .sort((a, b) => b.n - a.n);
}
