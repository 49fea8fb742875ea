import { HOUR_MS } from '../../units/time/index.ts';
import { cutAt } from '../depthLimit.ts';
import { depthBand } from '../positions/depth.ts';
import { knownOf, type Known } from '../rules/known.ts';
import { keptToLee, leeOnly, rulesInLee, type LeeOnly } from '../safety/lee.ts';
import type { PositionAdvice } from '../types.ts';
import type { LocalClock } from './clock.ts';
import type { PlanInputs } from './inputs.ts';
import { after, hourKnown, NOTHING_EARLIER } from './known.ts';
import { middleOf, type BlockHour, type SayableOf } from './reasons.ts';
import { sayableOf } from './sayable.ts';
import { scoreHour, type HourScore } from './score.ts';
import type { Slot } from './slots.ts';

/** The day's hours, each scored once. */
export class ScoredDay {
  readonly sayable: SayableOf;
  private readonly scores = new Map<number, HourScore>();
  private readonly known: Known;
  private readonly places: ReadonlySet<string>;
  private readonly lee: readonly LeeOnly[];
  private readonly earlier: readonly (typeof NOTHING_EARLIER)[];

  constructor(
    private readonly inputs: PlanInputs,
    private readonly clock: LocalClock,
  ) {
    this.known = knownOf(inputs.conditions);
    this.places = new Set(inputs.positions.map(({ place }) => place));
    this.lee = leeOnly(inputs.safety, inputs.rules.safety);
    this.sayable = sayableOf(inputs.rules.positions, inputs.phase.membership, this.places);
    const before = [NOTHING_EARLIER];
    for (const hour of inputs.hours) {
      before.push(after(before.at(-1) ?? NOTHING_EARLIER, hour, clock.hour(hour.fromMs)));
    }
    this.earlier = before;
  }

  /** How the places stand in an hour of the list; -1: an hour of which nothing is known beyond the day. */
  at(index: number): HourScore {
    const kept = this.scores.get(index);
    if (kept !== undefined) return kept;
    const { inputs, clock, known } = this;
    const hour = inputs.hours[index];
    const seen =
      hour === undefined
        ? { known, signals: known.signals }
        : hourKnown(
            known,
            hour,
            clock.hour((hour.fromMs + hour.toMs) / 2),
            this.earlier[index] ?? NOTHING_EARLIER,
          );
    const lee = hour !== undefined && keptToLee(this.lee, hour) !== undefined;
    const score = scoreHour(
      lee ? { ...seen, signals: { ...seen.signals, keptToLee: 1 } } : seen,
      inputs.phase.membership,
      lee ? rulesInLee(inputs.rules) : inputs.rules.positions,
      inputs.rules.hours,
      this.places,
    );
    this.scores.set(index, score);
    return score;
  }

  hoursOf(slots: readonly Slot[]): BlockHour[] {
    return slots.map(({ fromMs, toMs, hour }) => ({
      weightH: (toMs - fromMs) / HOUR_MS,
      hour: this.inputs.hours[hour],
      score: this.at(hour),
    }));
  }
}

/** The position of a place as it is in a stretch of hours. */
export function positionIn(
  place: string,
  hours: readonly BlockHour[],
  { positions, rules, phase, limitM }: PlanInputs,
): PositionAdvice | undefined {
  const position = positions.find((entry) => entry.place === place);
  const rule = rules.positions.places.find(({ id }) => id === place);
  const middle = middleOf(hours);
  if (position === undefined || rule === undefined || middle === undefined) return undefined;
  return {
    ...position,
    rank: 1,
    depthM: cutAt(depthBand(rule, middle.score.hour.known, phase.membership, rules.positions), limitM),
  };
}
