import type { BlockPace, DayPlan, NotOffered, OtherPattern, PlanBlock } from '../advice/plan/index.ts';
import type { RuleText } from '../config/index.ts';
import { sayCast, wordsFor } from '../words/index.ts';

const { plan: planWords } = wordsFor('en');

/** What a closed hour is closed for, in the words of the trade; a rule's own id where there is none. */
const HAZARD: Readonly<Record<string, string>> = {
  lightning: 'thunder',
  storms: 'thunder',
  gusts: 'wind',
  'hot-air': 'heat',
  'hot-air-humidity-unknown': 'heat',
  'rising-water': 'rise',
  'rising-rate': 'rise',
  'strong-flow': 'flow',
  dam: 'release',
  'release-start': 'release',
};

const round = (value: number, digits = 3): number => Number(value.toFixed(digits));

const paceJson = ({ retrieveMs, lowMs, highMs, pauseS, waterC }: BlockPace) => ({
  retrieveMs: round(retrieveMs),
  lowMs: round(lowMs),
  highMs: round(highMs),
  pauseS: round(pauseS, 1),
  waterC: waterC === null ? null : round(waterC, 2),
});

function blockJson(block: PlanBlock, text: RuleText) {
  const { lure } = block;
  return {
    from: block.from,
    to: block.to,
    fromMs: block.fromMs,
    toMs: block.toMs,
    place: block.place,
    ...(block.named === undefined ? {} : { named: block.named }),
    depthM: block.depthM,
    lureClass: lure.lureClass,
    weightG: lure.weightG,
    ...(lure.baitM === undefined ? {} : { baitM: lure.baitM }),
    hook: lure.hook,
    line: lure.line,
    colours: lure.colours,
    fallMs: lure.fallMs,
    pace: paceJson(block.pace),
    because: block.because.map((reason) => planWords.reason(text, reason)),
    reasons: block.because,
    giveUp: planWords.giveUp(block.giveUp),
    whyChange: block.whyChange === null ? null : planWords.change(text, block.whyChange),
    ...(block.fogTo === undefined ? {} : { fogTo: block.fogTo }),
    ...(block.startAt === undefined ? {} : { startAt: block.startAt }),
    level: block.level,
    score: round(block.score),
    cast: sayCast(block.cast, text),
  };
}

function patternJson(pattern: OtherPattern | NotOffered, text: RuleText) {
  if ('none' in pattern) return null;
  return {
    place: pattern.place,
    ...(pattern.named === undefined ? {} : { named: pattern.named }),
    depthM: pattern.depthM,
    lureClass: pattern.lureClass,
    because: pattern.because.map((reason) => planWords.reason(text, reason)),
    decides: pattern.decides === null ? null : planWords.reason(text, pattern.decides),
  };
}

const whyNone = (pattern: OtherPattern | NotOffered): string | null =>
  'none' in pattern ? planWords.noPattern(pattern.none) : null;

/** Hours closed for one thing, once: gusts and wind are one to whoever must be in. */
function closedJson(plan: DayPlan) {
  const seen = new Set<string>();
  return plan.closed.flatMap(({ from, to, fromMs, toMs, hazard, level }) => {
    const name = HAZARD[hazard] ?? hazard;
    const key = `${name} ${from} ${to}`;
    if (seen.has(key)) return [];
    seen.add(key);
    return [{ from, to, fromMs, toMs, hazard: name, rule: hazard, level }];
  });
}

/** The plan as data for programs: local times, SI numbers, and the sentences of its reasons. */
export function planJson(plan: DayPlan, text: RuleText) {
  return {
    date: plan.date,
    zone: plan.zone,
    fishing: plan.fishing === null ? null : { from: plan.fishing.from, to: plan.fishing.to },
    blocks: plan.blocks.map((block) => blockJson(block, text)),
    second: patternJson(plan.second, text),
    manyFish: patternJson(plan.manyFish, text),
    bigFish: patternJson(plan.bigFish, text),
    /** Why there is none of the three; null where there is one. */
    whyNone: {
      second: whyNone(plan.second),
      manyFish: whyNone(plan.manyFish),
      bigFish: whyNone(plan.bigFish),
    },
    closed: closedJson(plan),
    beInBy: plan.beInBy,
    /** Places that a hazard keeps from coming first; null where none does. */
    leftOut: plan.leftOut === null ? null : { ...plan.leftOut, words: planWords.leftOut(text, plan.leftOut) },
    notPlanned:
      plan.notPlanned === null
        ? null
        : { ...plan.notPlanned, because: planWords.notPlanned(text, plan.notPlanned) },
  };
}
