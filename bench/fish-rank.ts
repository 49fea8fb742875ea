/** An event with its score and its catch. */
export interface Scored {
  readonly group: string;
  /** Pool and year: what the bootstrap draws. */
  readonly block: string;
  readonly score: number;
  readonly caught: number;
}

/** Pairs that were ordered as the catch orders them, and all that could be. */
export interface Pairs {
  readonly right: number;
  readonly all: number;
}

export function grouped<T>(items: readonly T[], key: (item: T) => string): Map<string, T[]> {
  const groups = new Map<string, T[]>();
  for (const item of items) {
    const own = groups.get(key(item));
    if (own === undefined) groups.set(key(item), [item]);
    else own.push(item);
  }
  return groups;
}

/** Of two events of one group, does the one scored higher catch more? Equal catches are left out, equal scores are a half. */
export function pairsOf(events: readonly Scored[]): Pairs {
  let right = 0;
  let all = 0;
  for (const group of grouped(events, (event) => event.group).values()) {
    const sorted = [...group].sort((a, b) => a.caught - b.caught);
    for (const [index, high] of sorted.entries()) {
      for (let below = 0; below < index; below++) {
        const low = sorted[below]!;
        if (low.caught === high.caught) break;
        all += 1;
        const lead = high.score - low.score;
        right += lead > 1e-9 ? 1 : lead < -1e-9 ? 0 : 0.5;
      }
    }
  }
  return { right, all };
}

export function shareOf(events: readonly Scored[]): number {
  const { right, all } = pairsOf(events);
  return all === 0 ? NaN : right / all;
}

/** A seeded stream of numbers in [0, 1), so that a figure printed twice is the same figure. */
function seeded(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

const DRAWS = 500;

/** Interval, 5 to 95 %, of a figure of whole pool-years: what one year of one pool has in common is drawn together. */
export function interval(
  blocks: ReadonlyMap<string, Pairs>,
  figure: (sum: Pairs) => number = ({ right, all }) => right / all,
): readonly [number, number] {
  const random = seeded(16);
  const pool = [...blocks.values()];
  const found = Array.from({ length: DRAWS }, () => {
    let right = 0;
    let all = 0;
    for (let i = 0; i < pool.length; i++) {
      const drawn = pool[Math.floor(random() * pool.length)]!;
      right += drawn.right;
      all += drawn.all;
    }
    return figure({ right, all });
  }).sort((a, b) => a - b);
  return [found[Math.floor(0.05 * DRAWS)]!, found[Math.floor(0.95 * DRAWS) - 1]!];
}

export function blocksOf(events: readonly Scored[]): Map<string, Pairs> {
  return new Map([...grouped(events, (event) => event.block)].map(([block, own]) => [block, pairsOf(own)]));
}
