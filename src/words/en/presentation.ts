import type {
  Colour,
  Cue,
  CueFact,
  Misfit,
  Presentation,
  PresentationOf,
  Problem,
  ReelFact,
  Tied,
} from '../../advice/presentation/index.ts';
import type { RuleText } from '../../config/index.ts';
import { classOf } from '../../science/index.ts';
import { quantity, quantityRange } from '../../units/index.ts';
import { say, type Catalogue } from '../catalogue.ts';
import type { PresentationWords, StepsByKind } from '../inWords.ts';
import { coverStep, drifts, DROPPED_INTO, SHORT_CAST_M } from './coverSteps.ts';

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
    steps: Object.values(stepsByKind(of)),
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
  place: ({ listed }) => (listed ? 'it is used at such places' : 'it can be used here'),
  cover: ({ light }) => (light ? 'little here hangs it up' : 'it comes through the cover'),
  clarity: ({ clarityM, measured }) => clarityWords(clarityM, measured),
  pace: ({ ready }) => (ready ? 'it covers much water' : 'it can be worked slowly for sluggish fish'),
  light: ({ bright }) => (bright ? 'it still works under a bright sky' : 'no bright sun stands against it'),
  wind: ({ windy }) => (windy ? 'the wind helps it' : 'it works in little wind'),
  species: ({ species }) => `${species} bass take it well`,
  situation: ({ situation, wound }) => situationWords(situation, wound === true),
};

function situationWords(situation: string, wound: boolean): string {
  const words = SITUATIONS[situation] ?? 'it is the usual choice for such a day';
  return typeof words === 'string' ? words : words[wound ? 'wound' : 'let'];
}

/** Of a lure that is wound along and of one that is let down, where one sentence is not true of both. */
type ByWork = string | { readonly wound: string; readonly let: string };

const IN_THE_BUSHES: ByWork = {
  wound: 'it comes through bushes that stand in the water',
  let: 'it drops into the openings of bushes that stand in the water',
};

const SITUATIONS: Readonly<Record<string, ByWork>> = {
  'bright-after-a-front': 'fish that sit tight behind a front take a bait left in place',
  'cold-mud-rising': {
    wound: 'in rising mud it is felt',
    let: 'in rising mud a bulky, slow bait against the cover is met at arm’s length',
  },
  mud: { wound: 'in mud it is felt', let: 'in mud it is met at the cover' },
  'warm-water-in-the-bushes': {
    wound: 'it comes through cover that has just gone under water',
    let: 'it drops into the openings of cover that has just gone under water',
  },
  'in-flooded-bushes': IN_THE_BUSHES,
  'on-the-beds': 'it can be left where a fish guards its bed',
  'current-on-the-ledge': 'down the current it comes as food does',
  'below-the-dam': 'it comes down with the water like something washed off',
  'cold-clear-rock': 'in cold clear water it is seen from far off and can be kept in front of slow fish',
  'dying-bait': 'slow or hanging still it passes for bait that the cold has stunned',
  'warm-runoff-cold-lake': 'over a bank warmed by runoff it can be worked at an easy pace',
  'wind-on-stained-water': 'wind and colour in the water call for a lure that is felt',
  'under-the-dock': 'it goes under the boards into the shade',
  'fall-bait': 'it is the size of the bait and finds scattered fish',
  'still-low-light': 'in low light fish look up, and it passes above them',
  'summer-night': {
    wound: 'wound evenly in the dark it is easy to follow',
    let: 'on the bottom in the dark it is easy to find',
  },
  'over-and-along-grass': 'it ticks along the grass and comes free of it',
  'mats-and-pads': {
    wound: 'it goes over a roof of plants and along its edge',
    let: 'it goes straight through a roof of plants',
  },
  'hot-and-deep': 'it reaches fish that hold deep in the heat and stays there',
};

/** A depth of sight is told only where something measured it. */
function clarityWords(clarityM: number, measured: boolean): string {
  const words = classOf(clarityM).replace('-', ' ');
  if (!measured) return clarityM < 0.6 ? `it can be found in ${words} water` : `${words} water suits it`;
  if (clarityM < 0.6) return `it can be found in muddy water of ${quantity('clarity', clarityM)}`;
  return `clarity of ${quantity('clarity', clarityM)} suits it`;
}

/**
 * The day's situation where it is what decided, else at most two cues that set the class apart from the others. That
 * such places are its own is told of half of all classes, and so of none.
 */
function becauseOf({ cues, water }: Presentation): string {
  const telling = cues
    .filter(({ fact }) => fact.code !== 'place')
    .sort((a, b) => b.above - a.above || b.points - a.points);
  const apart = telling.filter(({ above }) => above > 0);
  const strongest = (apart.length > 0 ? apart : telling.slice(0, 1)).slice(0, 2);
  const decided = strongest.filter(({ fact }) => fact.code === 'situation');
  const words = (decided.length > 0 ? decided : strongest)
    .map(({ fact }: Cue) => say(CUE_WORDS, fact))
    .join(', and ');
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
  littleContact: () => 'it would hardly touch bottom on this cast',
};

function misfitWords({ wanted, problem }: Misfit, instead: string, text: RuleText): string {
  const told = say(PROBLEMS, problem);
  const suits = `A ${lureName(text, wanted)} would suit the water, but ${told}.`;
  return wanted === instead ? suits : `${suits} A ${lureName(text, instead)} works here.`;
}

// ---- what is tied on

const COLOUR_WORDS: Readonly<Record<Colour, string>> = {
  'natural translucent': 'a natural, see-through colour',
  'shad-like': 'silver or pearl, white belly',
  'bluegill-like': 'bluegill colours',
  'green-brown': 'green-brown',
  'craw red-brown': 'crayfish red-brown',
  dark: 'a dark colour',
  white: 'white',
  chartreuse: 'chartreuse, dark back',
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

const FORMS: Readonly<Record<NonNullable<Tied['form']>, string>> = {
  walker: 'walking bait',
  popper: 'popper',
  blade: 'metal blade',
  spoon: 'jigging spoon',
};

/** `size 4 trebles`, `a size 2 hook`, `a 4/0 hook`. */
function hookWords(hook: string): string {
  const [, treble] = /^treble (.+)$/.exec(hook) ?? [];
  if (treble !== undefined) return `size ${treble} trebles`;
  return /^\d+$/.test(hook) ? `a size ${hook} hook` : `a ${hook} hook`;
}

function tieStep(of: Presentation): string {
  const { weightG, baitM, hook, form, colour } = of.tied;
  const dives = of.family === 'diving' || of.family === 'suspending';
  const parts = [
    dives
      ? `one rated for ${quantity('depth', of.ratedDepthM)} (runs ${quantity('depth', of.runningDepthM)} here)`
      : weightG === undefined
        ? ''
        : baitM === undefined
          ? [quantity('lureMass', weightG / 1000), ...(form === undefined ? [] : [FORMS[form]])].join(' ')
          : `an unweighted ${quantity('baitLength', baitM)} bait of ${quantity('lureMass', weightG / 1000)}`,
    hook === undefined ? '' : hookWords(hook),
    colour === undefined ? '' : COLOUR_WORDS[colour],
  ].filter(Boolean);
  const floats =
    of.family === 'surface' && of.tied.line.material === 'nylon' ? ', which does not pull its nose down' : '';
  return `Tie on ${lineOf(of.tied)}${floats}: ${parts.length === 0 ? 'as it is sold' : parts.join(', ')}.`;
}

// ---- how it is worked

/** Where from, with what, how let down, how worked, what to feel for, what the cover asks: in the order of the doing. */
export function stepsByKind(of: Presentation): StepsByKind {
  const contact = contactStep(of);
  const cover = coverStep(of);
  return {
    boat: boatStep(of),
    tie: tieStep(of),
    ...workSteps(of),
    ...(contact === null ? {} : { contact }),
    ...(cover === null ? {} : { cover }),
  };
}

/** Kinds of place out on the lake: what slopes there is their edge. */
const AWAY_FROM_BANK: ReadonlySet<string> = new Set([
  'hump',
  'hard_spot',
  'river_channel',
  'main_lake_basin',
]);

function boatStep(of: Presentation): string {
  if (of.family === 'vertical') return `Hold the boat over ${quantity('depth', of.boatDepthM)}.`;
  const along = AWAY_FROM_BANK.has(of.place) ? 'edge' : 'bank';
  const direction =
    of.castAngleDeg >= 75
      ? 'straight up the slope'
      : of.castAngleDeg <= 3
        ? `all but parallel to the ${along}`
        : `at about ${quantity('castAngle', of.castAngleDeg)} to the ${along}`;
  const verb = of.castLengthM <= SHORT_CAST_M ? 'pitch' : 'cast';
  // A pitch is let down where it lands: one after the other they reach all of the depth.
  const landing =
    verb === 'pitch' && of.family === 'bottom' && of.deeperToM !== undefined
      ? quantityRange('landing', of.castDepthM, of.deeperToM)
      : quantity('landing', of.castDepthM);
  return `Boat over ${quantity('depth', of.boatDepthM)}: ${verb} ${quantity('distance', of.castLengthM)} ${direction}, into ${landing}.`;
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

function workSteps(of: Presentation): Pick<StepsByKind, 'sink' | 'work'> {
  const rate = turnsByHand(of.pace.speedMs / of.reel.takeM);
  const gear = gearOf(of.reel);
  const pause = pauseWords(of);
  switch (of.family) {
    case 'diving':
      return { work: `Wind ${rate} on the ${gear}. ${pause}` };
    case 'surface':
      return { work: of.pauseStyle === 'float' ? twitches(of) : `Wind ${rate} on the ${gear}. ${pause}` };
    case 'suspending':
      return { work: `Wind it down. ${pause}${TAKE_UP}` };
    case 'sinking':
      return of.pauseStyle === 'hang'
        ? { sink: countStep(of), work: `${pause}${of.pauseS < SHORTEST_COUNT_S ? '' : TAKE_UP}` }
        : { sink: countStep(of), work: `Wind ${rate} on the ${gear}, ${wound(of)}` };
    case 'bottom':
      return { sink: 'Let it fall to the bottom on a loose line.', work: bottomWork(of, pause) };
    case 'vertical':
      return {
        sink: `Drop it to the bottom and wind up ${quantity('landing', of.boatDepthM - of.runningDepthM)}, or stop it at the fish you see.`,
        work: `Lift it a short way and follow it down on a nearly tight line. ${pause}`,
      };
  }
}

/** A floating lure is worked by the rod: the handle only takes up what the rod made slack. */
function twitches(of: PresentationOf<'surface'>): string {
  return of.pauseS < SHORTEST_COUNT_S
    ? 'Twitch the rod tip down on slack line, no faster than once a second, and wind up only the slack.'
    : `${of.tied.form === 'popper' ? 'Pop' : 'Twitch'} it with the rod tip and wind up the slack. ${pauseWords(of)}`;
}

/** How slowly, and when to stop. */
function wound(of: PresentationOf<'sinking'>): string {
  if (of.silent === true) return 'slow enough that it ticks the bottom now and then, and no faster.';
  const slow = 'just fast enough to feel it work';
  const keepsMoving = of.pauseS < SHORTEST_COUNT_S;
  return keepsMoving && follows(of)
    ? `${slow}. Pause only to let it down as the bottom drops away.`
    : `${slow}. ${pauseWords(of)}`;
}

/** Behind a pull the line lies slack: a turn of the handle takes it up, and no rate of turns is wound. */
const TAKE_UP = ' Take up the slack, about one turn, and pull again.';

function bottomWork(of: PresentationOf<'bottom'>, pause: string): string {
  // What the water moves does not lie: it is held in touch with the bottom.
  if (drifts(of)) {
    const tumbles = 'et it tumble along the bottom, and lift it where it stops.';
    return of.coverKind === 'current' ? `L${tumbles}` : `Cast up the current and l${tumbles}`;
  }
  const pitched = of.castLengthM <= SHORT_CAST_M;
  if (!dragsFar(of) && (pitched || of.deeperToM === undefined)) {
    const rest =
      of.pauseS < SHORTEST_COUNT_S ? '' : `, with a rest of ${quantity('seconds', of.pauseS)} after each`;
    return `Hop it a few times where it lies${rest}. Then lift it out and ${pitched ? 'pitch' : 'cast'} again.`;
  }
  const move = of.moveM === null ? '' : ` about ${quantity('lineTake', of.moveM)} at a time`;
  return `Move it down the slope${move}. ${pause}`;
}

/** Under this no count is worth a word, s. */
const SHORTEST_COUNT_S = 0.75;

function countStep({ down }: PresentationOf<'sinking'>): string {
  if (down === null) return 'Let it fall until the line goes slack, then wind.';
  return down.countS < SHORTEST_COUNT_S
    ? 'Start winding as it lands: the water is shallow there.'
    : `Let it fall on a loose line for at most ${quantity('seconds', down.countS)}: it is then ${quantity('landing', down.startDepthM)} down.`;
}

/** Whether it is let down now and then to stay near a bottom that drops away. */
const follows = ({ down }: PresentationOf<'sinking'>): boolean =>
  down !== null && down.untilM > 0 && down.moreEvery3mS >= 0.3;

function pauseWords(of: Presentation): string {
  const { pauseS, family, pauseStyle } = of;
  if (pauseS < SHORTEST_COUNT_S) {
    if (family === 'surface' && pauseStyle === 'drop') return 'Keep it moving: it sinks when it stops.';
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
      if (family === 'bottom' && drifts(of)) return `Where it stops, wait ${seconds} and lift it again.`;
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

/** Down a slope, and not into cover at the end of a pitch. */
const dragsFar = ({ contact, coverKind, castLengthM }: PresentationOf<'bottom'>): boolean =>
  contact !== null &&
  contact.toM >= SHORTEST_DRAG_M &&
  !(castLengthM <= SHORT_CAST_M && DROPPED_INTO.includes(coverKind));

function contactStep(of: Presentation): string | null {
  if (of.family === 'bottom') {
    if (of.contact === null || of.coverKind === 'mat' || drifts(of)) return null;
    if (!dragsFar(of) && of.castLengthM <= SHORT_CAST_M) return null;
    if (of.deeperToM !== undefined)
      return `After about ${String(Math.round(of.castS / 60))} minutes wind in; land each next cast deeper, down to ${quantity('depth', of.deeperToM)}.`;
    if (!dragsFar(of)) return null;
    return `Work the first ${quantity('distance', of.contact.toM)}, then cast again.`;
  }
  if (of.family !== 'diving') return null;
  if (of.contact === null) return 'It runs clear of the bottom here.';
  const { fromM, toM, share } = of.contact;
  const stretch = `from ${quantity('distance', fromM)} to ${quantity('distance', toM)} of the retrieve`;
  return share >= MOST_OF_THE_WAY
    ? `Feel for bottom most of the way, ${stretch}.`
    : `Feel for bottom ${stretch}.`;
}
