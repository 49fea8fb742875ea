import type { LureClass, LurePlace } from '../../config/rulesLures.ts';
import { quantity } from '../../units/index.ts';
import type { Cast } from './cast.ts';
import type { Pace } from './pace.ts';
import type { Line, Reel } from './tackle.ts';

export interface StepFacts {
  readonly lure: LureClass;
  readonly traits: LurePlace;
  readonly cast: Cast;
  readonly pace: Pace;
  readonly reel: Reel;
  readonly line: Line;
  readonly pauseWords: string;
  readonly ratedDepthM?: number;
  readonly countS?: number;
}

/** What to do, in order: verbs first, one line each. */
export function stepsFor(facts: StepFacts): string[] {
  return [
    ...boatSteps(facts),
    lureStep(facts),
    ...workSteps(facts),
    facts.pauseWords,
    ...contactSteps(facts),
    ...woodSteps(facts),
  ];
}

function boatSteps({ lure, cast }: StepFacts): string[] {
  if (lure.family === 'vertical') {
    return [
      `Hold the boat over ${quantity('depth', cast.boatDepthM)} of water, right above the fish or the edge.`,
    ];
  }
  const direction =
    cast.angleDeg >= 75
      ? 'straight up the slope'
      : cast.angleDeg <= 3
        ? 'all but parallel to the bank'
        : `at ${quantity('angle', cast.angleDeg)} to the bank`;
  return [
    `Hold the boat over ${quantity('depth', cast.boatDepthM)} of water.`,
    `Cast ${quantity('distance', cast.lengthM)} ${direction}, to land in ${quantity('clarity', cast.castDepthM)} of water.`,
  ];
}

function lureStep({ lure, line, ratedDepthM, cast }: StepFacts): string {
  const tied = `on ${quantity('lineTest', line.kg)} ${lure.line.material}`;
  if (ratedDepthM !== undefined) {
    return `Tie one rated for ${quantity('depth', ratedDepthM)} ${tied}; here it runs ${quantity('depth', cast.runningDepthM)}.`;
  }
  if (lure.family === 'surface') return `Tie it ${tied}; line that sinks pulls its nose down.`;
  return `Tie it ${tied}.`;
}

const NUMBERS = ['one', 'two', 'three', 'four', 'five'] as const;
const LONGEST_COUNT_S = 10;

/**
 * A rate of turns as a hand counts it: `two turns in 3 s`. The simplest count within a twelfth of the rate, else the
 * nearest.
 *
 * @param perS turns a second, above 0
 */
export function turnsByHand(perS: number): string {
  let best = { turns: 1, seconds: 1, miss: Infinity };
  for (let sum = 2; sum <= NUMBERS.length + LONGEST_COUNT_S; sum += 1) {
    for (let turns = 1; turns <= Math.min(sum - 1, NUMBERS.length); turns += 1) {
      const seconds = sum - turns;
      if (seconds > LONGEST_COUNT_S) continue;
      const miss = Math.abs(turns / seconds / perS - 1);
      if (miss < best.miss) best = { turns, seconds, miss };
    }
    if (best.miss <= 1 / 12) break;
  }
  const count = `${NUMBERS[best.turns - 1] ?? ''} ${best.turns === 1 ? 'turn' : 'turns'}`;
  return best.seconds === 1 ? `${count} a second` : `${count} in ${quantity('seconds', best.seconds)}`;
}

function workSteps({ lure, cast, pace, reel, countS }: StepFacts): string[] {
  const rate = turnsByHand(pace.speedMs / reel.takeM);
  const gear = `${reel.gear.toFixed(1)}:1 reel`;
  const count = countS === undefined ? undefined : quantity('seconds', countS);
  switch (lure.family) {
    case 'diving':
    case 'surface':
      return [`Wind ${rate} on the ${gear}.`];
    case 'suspending':
      return [`Wind it down, then work it at about ${rate} between pauses on the ${gear}.`];
    case 'sinking':
      return [
        `Count ${count ?? ''} before winding, so it starts near ${quantity('depth', cast.runningDepthM)}.`,
        `Wind ${rate} on the ${gear}, just fast enough to feel it work.`,
      ];
    case 'bottom':
      return [
        'Let it fall on a nearly tight line until the line goes slack.',
        dragsFar(cast)
          ? `Drag it down the slope, about ${quantity('lureSpeed', pace.speedMs)}; take up slack with the ${gear}.`
          : `Work it where it lies with the rod tip; take up slack with the ${gear}.`,
      ];
    case 'vertical':
      return [
        `Drop it to ${quantity('depth', cast.runningDepthM)}, about ${count ?? ''} of fall.`,
        'Lift it a short way, then follow it down on a nearly tight line.',
      ];
  }
}

/** Shorter than this a stretch on the bottom is no drag down a slope, m (our choice). */
const SHORTEST_DRAG_M = 2.5;

const dragsFar = ({ contactToM }: Cast): boolean => contactToM !== null && contactToM >= SHORTEST_DRAG_M;

function contactSteps({ lure, cast }: StepFacts): string[] {
  if (!cast.contactApplies || cast.contactFromM === null || cast.contactToM === null) return [];
  if (lure.family === 'bottom') {
    if (!dragsFar(cast))
      return [
        `The line is steep here: it leaves the bottom after ${quantity('distance', cast.contactToM)}; then wind in and cast again.`,
      ];
    return [
      `Expect bottom for the first ${quantity('distance', cast.contactToM)}; then wind in and cast again.`,
    ];
  }
  return [
    `Feel for bottom from ${quantity('distance', cast.contactFromM)} to ${quantity('distance', cast.contactToM)} of the retrieve; expect none near the boat.`,
  ];
}

function woodSteps({ lure, traits }: StepFacts): string[] {
  if (traits.kind !== 'wood') return [];
  switch (lure.lip) {
    case 'round':
    case 'flat':
      return ['At wood, raise the rod, stop winding and ease the rounded lip over each limb.'];
    case 'square':
      return ['Keep winding into wood; when it strikes, pause and let it float back.'];
    case 'narrow':
      return ['Keep it beside the wood, not through it: it hangs easily.'];
    case 'none':
      return lure.snagResistance >= 0.6
        ? ['Bring it over each limb slowly and let it drop on the far side.']
        : ['Stay at the edge of the wood: it hangs easily.'];
  }
}
