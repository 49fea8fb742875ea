/** From outcomes to scores, always beside the baseline on the same outcomes. */
import { wilson } from '../science/index.ts';
import { mean } from '../signals/index.ts';
import { ITEMS, type Item, type ItemScore, type Outcome, type Outcomes, type Tally } from './types.ts';

const tally = (of: readonly Outcome[], is: (outcome: Outcome) => boolean): Tally => {
  const hits = of.filter(is).length;
  const [low, high] = wilson(hits, of.length);
  return { hits, of: of.length, low, high };
};

/** -1 fall, 0 steady, 1 rise. */
const directionOf = (change: number, deadBand: number): number =>
  Math.abs(change) <= deadBand ? 0 : Math.sign(change);

/** Scores of one item; null without outcomes. The order of the outcomes does not matter. */
export function scoreItem(item: Item, outcomes: readonly Outcome[]): ItemScore | null {
  const sorted = [...outcomes].sort((a, b) => (a.date < b.date ? -1 : 1));
  const average = (of: (outcome: Outcome) => number): number => mean(sorted.map(of)) ?? NaN;
  if (sorted.length === 0) return null;
  const ranged = sorted.filter(({ range }) => range !== undefined);
  const moved = sorted.filter(({ deadBand }) => deadBand !== undefined);
  const right = (guess: 'said' | 'held') => (outcome: Outcome) =>
    directionOf(outcome[guess], outcome.deadBand ?? 0) === directionOf(outcome.came, outcome.deadBand ?? 0);
  return {
    item,
    n: sorted.length,
    meanError: average(({ said, came }) => said - came),
    meanAbsError: average(({ said, came }) => Math.abs(said - came)),
    heldMeanAbsError: average(({ held, came }) => Math.abs(held - came)),
    ...(ranged.length === 0
      ? {}
      : {
          inside: tally(
            ranged,
            ({ came, range }) => range !== undefined && came >= range[0] && came <= range[1],
          ),
        }),
    ...(moved.length === 0
      ? {}
      : { direction: tally(moved, right('said')), heldDirection: tally(moved, right('held')) }),
  };
}

/** Scores of every item that has outcomes, in a fixed order. */
export function scoreOutcomes(outcomes: Outcomes): ItemScore[] {
  return ITEMS.flatMap((item) => scoreItem(item, outcomes[item]) ?? []);
}
