import type {
  Colour,
  ContactMend,
  Cue,
  CueFact,
  Misfit,
  Presentation,
  PresentationOf,
  Problem,
  ReelFact,
  Tied,
} from '../../advice/presentation/index.ts';
import type { RuleText } from '../../config/ruleText.ts';
import { classOf } from '../../science/index.ts';
import { quantity } from '../../units/index.ts';
import { say, type Catalogue } from '../catalogue.ts';
import type { PresentationWords } from '../inWords.ts';

/** What a class of lure is called; the trade's own name, which is its id, where a language has none. */
export const lureName = (text: RuleText, id: string): string => text[`lure.${id}`] ?? id;

/** Everything that is said of how one class is worked at one place; quantities stay placeholders. */
export function presentationWords(text: RuleText, of: Presentation): PresentationWords {
  const temperatureWords = waterWords(of);
  return {
    because: becauseOf(of),
    reel: `${gearOf(of.reel)}, ${quantity('lineTake', of.reel.takeM)} per turn`,
    pauseWords: pauseWords(of),
    lineWords: `${lineOf(of.tied)}: ${LINE_WHY[of.tied.line.why]}`,
    steps: stepsOf(of),
    ...(temperatureWords === undefined ? {} : { temperatureWords }),
    ...(of.misfit === null ? {} : { misfit: misfitWords(of.misfit, of.lureClass, text) }),
  };
}

const gearOf = ({ gear }: ReelFact): string => `${gear.toFixed(1)}:1 reel`;

// ---- why this class

/** Clauses that fit behind "because". */
export const CUE_WORDS: Catalogue<CueFact> = {
  temperature: ({ waterC, best }) =>
    `water near ${quantity('temperature', waterC)} is ${best ? 'in its best range' : 'within its range'}`,
  place: ({ listed }) => (listed ? 'this kind of place suits it' : 'it can be used here'),
  cover: ({ light }) => (light ? 'little here hangs it up' : 'it comes through the cover'),
  clarity: ({ clarityM, measured }) => clarityWords(clarityM, measured),
  pace: ({ ready }) =>
    ready ? 'it covers water while fish are ready to move' : 'it can be worked slowly for sluggish fish',
  light: ({ bright }) => (bright ? 'it still works under a bright sky' : 'the low light suits it'),
  wind: ({ windy }) => (windy ? 'the wind helps it' : 'it works in little wind'),
  species: ({ species }) => `${species} bass take it well`,
  situation: ({ situation }) => SITUATIONS[situation] ?? 'it is the usual choice for such a day',
};

const SITUATIONS: Readonly<Record<string, string>> = {
  'bright-after-a-front': 'fish that sit tight behind a front take a small bait left in place',
  'cold-mud-rising': 'in rising mud a bulky, slow bait against the cover is met at arm’s length',
  'warm-water-in-the-bushes': 'it drops into the openings of cover that has just gone under water',
  'on-the-beds': 'it falls slowly onto a bed and can lie there',
  'current-on-the-ledge': 'moving water carries it along the ledge as it carries food',
  'below-the-dam': 'it drifts along the seam like something washed down',
  'cold-clear-rock': 'in cold clear water it is seen from far off and can be kept in front of slow fish',
  'dying-bait': 'left hanging or fluttering it passes for bait that the cold has stunned',
  'warm-runoff-cold-lake': 'over a bank warmed by runoff it can be worked at an easy pace',
  'wind-on-stained-water': 'wind and colour in the water call for a lure that is felt',
  'under-the-dock': 'it goes under the boards into the shade',
  'fall-bait': 'it is the size of the bait and finds scattered fish',
  'still-low-light': 'over still water in low light fish look up, and it stays above them',
  'summer-night': 'worked evenly in the dark it is easy to follow',
  'over-and-along-grass': 'it ticks along the grass and comes free of it',
  'mats-and-pads': 'it goes over, or straight through, a roof of plants',
  'hot-and-deep': 'it reaches fish that hold deep in the heat and stays there',
};

/** A depth of sight is told only where something measured it. */
function clarityWords(clarityM: number, measured: boolean): string {
  const words = classOf(clarityM).replace('-', ' ');
  if (!measured) return clarityM < 0.6 ? `it can be found in ${words} water` : `${words} water suits it`;
  if (clarityM < 0.6) return `it can be found in muddy water of ${quantity('clarity', clarityM)}`;
  return `clarity of ${quantity('clarity', clarityM)} suits it`;
}

/** The two cues that set the class apart from the others. */
function becauseOf({ cues, water }: Presentation): string {
  const strongest = [...cues].sort((a, b) => b.above - a.above || b.points - a.points).slice(0, 2);
  const words = strongest.map(({ fact }: Cue) => say(CUE_WORDS, fact)).join(', and ');
  return water.basis === 'known' ? `Because ${words}.` : `Because ${words}. The temperature is not known.`;
}

function waterWords({ water }: Presentation): string | undefined {
  switch (water.basis) {
    case 'known':
      return undefined;
    case 'air':
      return `Water temperature is unknown; near ${quantity('temperature', water.waterC)} is a guess from the week's air. Measure it and adjust.`;
    case 'unknown':
      return 'Water temperature is unknown: start slow, then speed up until something answers.';
  }
}

const PROBLEMS: Catalogue<Problem> = {
  tooDeep: () => 'the fish are deeper than it runs',
  tooShallow: () => 'the water is too shallow for it',
  tooSteep: () => 'the bank is too steep to follow',
  littleContact: ({ share, mend }) =>
    `it would touch bottom only ${quantity('share', share)} of the way on this cast; ${say(MENDS, mend)}`,
};

const MENDS: Catalogue<ContactMend> = {
  longerCast: ({ castM }) => `a cast of ${quantity('distance', castM)} would do`,
  shallowerLure: ({ ratedM }) =>
    `one rated for ${quantity('depth', ratedM)}, with the boat nearer to the bank, would do`,
};

function misfitWords({ wanted, problem }: Misfit, instead: string, text: RuleText): string {
  const told = say(PROBLEMS, problem);
  const suits = `A ${lureName(text, wanted)} would suit the water, but ${told}.`;
  return wanted === instead ? suits : `${suits} A ${lureName(text, instead)} works here.`;
}

// ---- what is tied on

const COLOUR_WORDS: Readonly<Record<Colour, string>> = {
  'natural translucent': 'a natural, see-through colour',
  'shad-like': 'silver or pearl with a white belly',
  'bluegill-like': 'blue-green with an orange throat',
  'green-brown': 'green-brown',
  'craw red-brown': 'red-brown like a crayfish',
  dark: 'a dark colour',
  white: 'white',
  chartreuse: 'chartreuse with a dark back',
  bone: 'bone',
};

function lineOf({ line }: Tied): string {
  return line.leaderKg === undefined
    ? `${quantity('lineTest', line.kg)} ${line.material}`
    : `${quantity('lineTest', line.leaderKg)} fluorocarbon leader on ${quantity('lineTest', line.kg)} ${line.material}`;
}

const LINE_WHY: Readonly<Record<Tied['line']['why'], string>> = {
  asHeavyAsItBears: 'as heavy as this lure bears',
  veryShallowHeavyCover: 'very shallow in heavy cover',
  heavierForCover: 'heavier for the cover',
  heavierShallow: 'heavier because it is shallow or the lure is heavy',
  thinForDepth: 'thin enough to reach the depth',
  clearWater: 'thin for clear water',
  stems: 'it cuts stems',
  usual: 'what this lure is usually tied to',
};

function tieStep(of: Presentation): string {
  const { weightG, baitM, hook, colour } = of.tied;
  const dives = of.family === 'diving' || of.family === 'suspending';
  const parts = [
    dives
      ? `one rated for ${quantity('depth', of.ratedDepthM)} (runs ${quantity('depth', of.runningDepthM)} here)`
      : weightG === undefined
        ? ''
        : baitM === undefined
          ? quantity('lureMass', weightG / 1000)
          : `an unweighted ${quantity('baitLength', baitM)} bait of ${quantity('lureMass', weightG / 1000)}`,
    hook === undefined ? '' : hook.startsWith('treble') ? `${hook} hooks` : `a ${hook} hook`,
    colour === undefined ? '' : COLOUR_WORDS[colour],
  ].filter(Boolean);
  const sinks =
    of.family === 'surface' && of.tied.line.material === 'nylon'
      ? '; line that sinks pulls its nose down'
      : '';
  return `Tie on ${lineOf(of.tied)}: ${parts.length === 0 ? 'as it is sold' : parts.join(', ')}${sinks}.`;
}

// ---- how it is worked

/** Where from, with what, how worked, what to feel for, what the cover asks: few steps, none of them to be left out. */
function stepsOf(of: Presentation): string[] {
  return [boatStep(of), tieStep(of), ...workSteps(of), ...contactSteps(of), ...coverSteps(of)];
}

function boatStep(of: Presentation): string {
  if (of.family === 'vertical')
    return `Boat over ${quantity('depth', of.boatDepthM)}, right above the fish or the edge.`;
  const direction =
    of.castAngleDeg >= 75
      ? 'straight up the slope'
      : of.castAngleDeg <= 3
        ? 'all but parallel to the bank'
        : `at ${quantity('angle', of.castAngleDeg)} to the bank`;
  const verb = of.castLengthM <= SHORT_CAST_M ? 'pitch' : 'cast';
  return `Boat over ${quantity('depth', of.boatDepthM)}: ${verb} ${quantity('distance', of.castLengthM)} ${direction}, to land in ${quantity('clarity', of.castDepthM)}.`;
}

/** A cast as short as this is a pitch, m (25 ft). */
const SHORT_CAST_M = 7.7;

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

function workSteps(of: Presentation): string[] {
  const rate = turnsByHand(of.pace.speedMs / of.reel.takeM);
  const gear = gearOf(of.reel);
  const pause = pauseWords(of);
  switch (of.family) {
    case 'diving':
    case 'surface':
      return [`Wind ${rate} on the ${gear}. ${pause}`];
    case 'suspending':
      return [`Wind it down. ${pause} Between pauses wind about ${rate} on the ${gear}.`];
    case 'sinking':
      return [...countSteps(of), `Wind ${rate} on the ${gear}, just fast enough to feel it work. ${pause}`];
    case 'bottom':
      return [
        of.contact === null || of.contact.toM < SHORTEST_DRAG_M
          ? 'Let it fall on a loose line until the line goes slack.'
          : 'Let it fall on a nearly tight line until the line goes slack.',
        dragsFar(of)
          ? `Move it down the slope${of.moveM === null ? '' : `, ${quantity('clarity', of.moveM)} at a time`}; take up slack with the ${gear}. ${pause}`
          : `Work it where it lies with the rod tip. ${pause}`,
      ];
    case 'vertical':
      return [
        of.countS === null
          ? `Drop it to ${quantity('depth', of.runningDepthM)}.`
          : `Drop it to ${quantity('depth', of.runningDepthM)}, about ${quantity('seconds', of.countS)} of fall.`,
        `Lift it a short way and follow it down on a nearly tight line. ${pause}`,
      ];
  }
}

/** Under this no count is worth a word, s. */
const SHORTEST_COUNT_S = 0.75;

function countSteps({ down, castDepthM }: PresentationOf<'sinking'>): string[] {
  if (down === null) return ['Let it fall until the line goes slack, then wind.'];
  const start =
    down.countS < SHORTEST_COUNT_S
      ? 'Start winding as it lands: the water is shallow there.'
      : `Let it fall on a loose line for at most ${quantity('seconds', down.countS)}: it is then ${quantity('clarity', down.startDepthM)} down, over ${quantity('clarity', castDepthM)}.`;
  return [[start, followWords(down)].filter(Boolean).join(' ')];
}

function followWords(down: NonNullable<PresentationOf<'sinking'>['down']>): string {
  if (down.untilM === 0 || down.moreEvery3mS < 0.3) return '';
  return `As the bottom drops away, let it fall ${quantity('seconds', Math.max(1, down.moreEvery3mS))} more every ${quantity('distance', 3.05)}, for the first ${quantity('distance', down.untilM)}.`;
}

function pauseWords(of: Presentation): string {
  const { pauseS, family, pauseStyle } = of;
  if (pauseS < SHORTEST_COUNT_S) {
    return family === 'diving' || family === 'sinking'
      ? 'Keep it moving; stop only when it strikes something.'
      : 'Hardly pause; keep a steady rhythm.';
  }
  const seconds = quantity('seconds', pauseS);
  switch (pauseStyle) {
    case 'stop':
      return `Stop for ${seconds} near the bottom, then start again slowly.`;
    case 'drop':
      return `Stop winding now and then and let it drop for ${seconds}.`;
    case 'hang':
      return `Pull once or twice, then leave it hanging for ${seconds} on slack line.`;
    case 'rest':
      return family === 'bottom'
        ? `Let it lie for ${seconds} after each move.`
        : `Move it a little, then let it lie for ${seconds}.`;
    case 'float':
      return `Let it lie for ${seconds} between moves.`;
    case 'hold':
      return `Hold it still for ${seconds} after each lift and fall.`;
  }
}

/** Shorter than this a stretch on the bottom is no drag down a slope, m (our choice). */
const SHORTEST_DRAG_M = 2.5;
/** From this share on contact is called most of the way. */
const MOST_OF_THE_WAY = 0.6;

const dragsFar = ({ contact }: PresentationOf<'bottom'>): boolean =>
  contact !== null && contact.toM >= SHORTEST_DRAG_M;

function contactSteps(of: Presentation): string[] {
  if (of.family === 'bottom') {
    if (of.contact === null) return [];
    const toM = quantity('distance', of.contact.toM);
    if (!dragsFar(of)) return ['The line is steep here: lift it out after a short stretch and pitch again.'];
    return [`Expect bottom for the first ${toM}; then wind in and cast again.`];
  }
  if (of.family !== 'diving') return [];
  if (of.contact === null) return ['It runs clear of the bottom here.'];
  const { fromM, toM, share } = of.contact;
  const stretch = `from ${quantity('distance', fromM)} to ${quantity('distance', toM)} of the retrieve`;
  return [
    share >= MOST_OF_THE_WAY ? `Feel for bottom most of the way, ${stretch}.` : `Feel for bottom ${stretch}.`,
  ];
}

// ---- what the cover asks for; only words that are true of it

function coverSteps(of: Presentation): string[] {
  const words = COVER[of.coverKind];
  return words === undefined ? [] : words(of);
}

const COVER: Readonly<Partial<Record<Presentation['coverKind'], (of: Presentation) => string[]>>> = {
  wood: woodSteps,
  brush: (of) => [
    of.guard === 'guarded' || of.guard === 'weedless'
      ? 'Let it down into the brush and lift it slowly over each branch.'
      : 'Keep it over the top and along the sides of the brush: it hangs easily.',
  ],
  dock: (of) => [
    of.guard === 'weedless'
      ? 'Skip it under the walkway; mind cables and ladders.'
      : of.guard === 'guarded'
        ? 'Let it fall down each post, then bring it out; mind cables and ladders.'
        : 'Take it along the outer posts and the edge of the shade.',
  ],
  stems: (of) => [
    of.guard === 'treble' || of.guard === 'open'
      ? 'Stay along the outer stems: it hangs easily.'
      : 'Drop it into the gaps between the stems and bring it out the way it went in.',
  ],
  grass: (of) => [
    of.guard === 'treble'
      ? 'Tick the tops of the grass; where it holds, pull it free with the rod.'
      : 'Work it along the edge of the grass and into its holes.',
  ],
  pads: () => ['Work it over the leaves and stop it in the openings.'],
  mat: (of) => [
    of.family === 'surface'
      ? 'Work it over the mat and stop it in the holes; wait until the line is pulled away before you strike.'
      : 'Drop it through the mat, let it rest below, then bring it up and move on.',
  ],
  current: () => ['Cast upstream of the seam and let the water carry it into the slack.'],
};

function woodSteps({ lip, guard }: Presentation): string[] {
  switch (lip) {
    case 'round':
    case 'flat':
      return ['At wood, raise the rod, stop winding and ease the rounded lip over each limb.'];
    case 'square':
      return ['Keep winding into wood; when it strikes, pause and let it float back.'];
    case 'narrow':
      return ['Keep it beside the wood, not through it: it hangs easily.'];
    case 'none':
      return guard === 'guarded' || guard === 'weedless'
        ? ['Bring it over each limb slowly and let it drop on the far side.']
        : ['Stay at the edge of the wood: it hangs easily.'];
  }
}
