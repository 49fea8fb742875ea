/** Changes of rule weights that outings speak for. They are proposals: nothing here changes a rule. */
import { normalCdf, Z80 } from '../../science/index.ts';
import { FEWEST } from '../compare.ts';
import { fitCounts } from './model.ts';

/** One rule on one outing: how fully it spoke for the place that was fished, and the points that this was worth. */
export interface RulePart {
  readonly rule: string;
  /** 0 to 1, and below 0 where the rule speaks against the place; 1 is its whole strength. */
  readonly share: number;
}

/** An outing at one kind of place, beside what the shipped rules said of that place on that morning. */
export interface LearnRow {
  readonly fish: number;
  readonly hours: number;
  readonly reader: string;
  readonly points: number;
  readonly parts: readonly RulePart[];
}

export interface RuleProposal {
  readonly rule: string;
  /** Points to add to the rule's strongest weight; the others of the rule change in proportion. */
  readonly change: number;
  /**
   * Catch beyond what the shipped rules explain when the rule speaks fully, of a place beside the other places: factor,
   * and its 80 % interval.
   */
  readonly ratio: number;
  readonly low: number;
  readonly high: number;
  /** Outings in which the rule spoke, and their readers. */
  readonly n: number;
  readonly readers: number;
}

export interface Learnt {
  readonly n: number;
  readonly readers: number;
  /** Why nothing was looked at; null when something was. */
  readonly tooFew: boolean;
  /** Rules that spoke often enough to be judged, and were judged. */
  readonly judged: readonly RuleProposal[];
  /** Those of them whose change is proposed. */
  readonly proposals: readonly RuleProposal[];
  /** Factor of the catch that goes with a point of the shipped rules. */
  readonly ratioOfAPoint: number;
}

/** Every outing has one place, and so one of these rules that speaks. */
const BASE = 'base.';
/** From this share on a rule counts as speaking. */
const SPEAKS = 0.1;
/** Chance that anything at all is proposed when nothing differs, shared out among all rules that are judged. */
const FALSE_ALARM = 0.03;
/** A point goes with at least this factor of the catch when effects are turned into points. Common practice, no source. */
const LEAST_RATIO_OF_A_POINT = 1.15;
/** Smaller changes are not worth a line; larger ones are made in steps. Points; common practice, no source. */
const CHANGE = { least: 0.1, most: 1.5 };

/** How many standard deviations an effect must lie from nothing, when so many rules are judged at once (Bonferroni). */
function threshold(judged: number): number {
  const share = 1 - FALSE_ALARM / judged / 2;
  let [low, high] = [0, 8];
  for (let k = 0; k < 60; k++) {
    const middle = (low + high) / 2;
    if (normalCdf(middle) < share) low = middle;
    else high = middle;
  }
  return high;
}

interface Candidate {
  readonly rule: string;
  readonly n: number;
  readonly readers: number;
}

/** Rules that spoke in enough outings of enough readers, and were silent in enough others to tell the difference. */
function candidatesOf(rows: readonly LearnRow[], leastReaders: number): Candidate[] {
  const found = new Map<string, { n: number; readers: Set<string>; shares: number[] }>();
  for (const { parts, reader } of rows)
    for (const { rule, share } of parts) {
      if (Math.abs(share) < SPEAKS) continue;
      const known = found.get(rule) ?? { n: 0, readers: new Set<string>(), shares: [] };
      known.n += 1;
      known.readers.add(reader);
      known.shares.push(share);
      found.set(rule, known);
    }
  return [...found]
    .filter(([, { n, readers, shares }]) => {
      const silent = rows.length - n;
      // Where it always speaks, its strength must at least differ.
      const differs = Math.max(...shares) - Math.min(...shares) > 0.3;
      return n >= FEWEST.outings && readers.size >= leastReaders && (silent >= FEWEST.outings || differs);
    })
    .map(([rule, { n, readers }]) => ({ rule, n, readers: readers.size }))
    .sort((a, b) => (a.rule < b.rule ? -1 : 1));
}

/**
 * What outings say of the weights of the shipped rules.
 *
 * @param whose `shared`: from five readers and 30 outings on; `own`: one reader's own, from 30 outings on
 * @param heldOf how much more tightly than others a rule is held, 1 or above: those that were fitted to surveys
 */
export function learnFrom(
  rows: readonly LearnRow[],
  whose: 'shared' | 'own',
  heldOf: (rule: string) => number = () => 1,
): Learnt {
  const readers = new Set(rows.map(({ reader }) => reader)).size;
  const head = { n: rows.length, readers };
  const leastReaders = whose === 'shared' ? FEWEST.sharedReaders : 1;
  if (rows.length < FEWEST.sharedOutings || readers < leastReaders)
    return { ...head, tooFew: true, judged: [], proposals: [], ratioOfAPoint: 1 };
  const candidates = candidatesOf(rows, whose === 'shared' ? FEWEST.groupReaders : 1);
  const counts = rows.map(({ parts, ...row }) => {
    const shares = new Map(parts.map(({ rule, share }) => [rule, share]));
    return { ...row, speaks: candidates.map(({ rule }) => shares.get(rule) ?? 0) };
  });
  const fit = fitCounts(
    counts,
    candidates.map(({ rule }) => ({ isAlternative: rule.startsWith(BASE), held: heldOf(rule) })),
  );
  const perPoint = Math.max(fit.perPoint, Math.log(LEAST_RATIO_OF_A_POINT));
  const wanted = threshold(Math.max(1, candidates.length));
  const judged = candidates.map((candidate, j) => {
    const { value, sd, clear } = fit.effects[j] ?? { value: 0, sd: 1, clear: 0 };
    const change = Math.max(-CHANGE.most, Math.min(CHANGE.most, value / perPoint));
    const proposal: RuleProposal = {
      ...candidate,
      change,
      ratio: Math.exp(value),
      low: Math.exp(value - Z80 * sd),
      high: Math.exp(value + Z80 * sd),
    };
    return { proposal, isClear: clear > wanted && Math.abs(change) >= CHANGE.least };
  });
  return {
    ...head,
    tooFew: false,
    judged: judged.map(({ proposal }) => proposal),
    proposals: judged.filter(({ isClear }) => isClear).map(({ proposal }) => proposal),
    ratioOfAPoint: Math.exp(fit.perPoint),
  };
}
