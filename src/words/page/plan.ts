/** The plan of the day, said: blocks, other patterns, closed hours, and when to be in. */
import {
  type BlockFacts,
  type CastFacts,
  type HazardFacts,
  isClosedDay,
  type PlanFacts,
} from '../../briefing/index.ts';
import { quantity } from '../../units/index.ts';
import { STEP_KINDS } from '../inWords.ts';
import type { Words } from '../languages.ts';
import { namesIn, stretchesOf } from './closedHours.ts';
import type { PageBlock, PageCast, PagePlan } from './schema.ts';
import { inert, lowerFirst, sentenceOf } from './sentence.ts';
import type { Teller } from './teller.ts';
import { capital } from '../letters.ts';

type CastNumbers = Omit<
  PageCast,
  | 'placeName'
  | 'lureClass'
  | 'because'
  | 'reel'
  | 'pauseWords'
  | 'lineWords'
  | 'steps'
  | 'stepKinds'
  | 'misfit'
>;

function numbersOf(cast: CastFacts): CastNumbers {
  return {
    place: cast.place,
    runningDepthM: cast.runningDepthM,
    retrieveMs: cast.retrieveMs,
    retrieveLowMs: cast.retrieveLowMs,
    retrieveHighMs: cast.retrieveHighMs,
    turnsPerS: cast.turnsPerS,
    pauseS: cast.pauseS,
    lineKg: cast.lineKg,
    boatDepthM: cast.boatDepthM,
    castDepthM: cast.castDepthM,
    castLengthM: cast.castLengthM,
    castAngleDeg: cast.castAngleDeg,
    bankDeg: cast.bankDeg,
    contactShare: cast.contactShare,
    contactFromM: cast.contactFromM,
    contactToM: cast.contactToM,
    ...(cast.family === undefined ? {} : { family: cast.family }),
    ...(cast.path === undefined ? {} : { path: cast.path }),
  };
}

export function saidCast(cast: CastFacts, placeName: string, tell: Teller): PageCast {
  const { lureClass, because, reel, pauseWords, lineWords, steps, byKind, misfit } = tell.cast(cast);
  const kinds = byKind === undefined ? undefined : STEP_KINDS.filter((kind) => byKind[kind] !== undefined);
  return {
    ...numbersOf(cast),
    placeName,
    lureClass,
    because: sentenceOf(because),
    reel,
    pauseWords,
    lineWords,
    steps: steps.map(sentenceOf),
    ...(kinds === undefined ? {} : { stepKinds: kinds }),
    ...(misfit === undefined ? {} : { misfit: sentenceOf(misfit) }),
  };
}

export function saidPlan(
  plan: PlanFacts,
  hazards: readonly HazardFacts[],
  words: Words,
  tell: Teller,
): PagePlan {
  const w = words.front;
  return {
    fishing: plan.fishing === null ? null : { fromMs: plan.fishing.fromMs, toMs: plan.fishing.toMs },
    blocks: plan.blocks.map((block) => saidBlock(block, marksOf(plan, block, w, tell), words, tell)),
    others: (['bigFish', 'manyFish', 'second'] as const).flatMap((id) => {
      const pattern = plan[id];
      if ('none' in pattern) return [];
      // What is planned is told of its block.
      if (plan.blocks.some((block) => isSame(block, pattern, tell))) return [];
      // A pattern is told once, by what sets it apart.
      const isTold = [plan.bigFish, plan.manyFish].some(
        (one) => !('none' in one) && isSame(one, pattern, tell),
      );
      if (id === 'second' && isTold) return [];
      return [w[id](inert(pattern.named ?? lowerFirst(tell(pattern.name))), tell(pattern.lureClass))];
    }),
    closed: stretchesOf(plan.closed).map(({ of, ...span }) => ({
      ...span,
      words: namesIn(of, ({ hazard }) => hazardWords(hazard, hazards, tell)) || w.lanes.closed,
    })),
    beIn: [plan.blocks[0]?.fogTo === undefined ? '' : w.fogFirst(plan.blocks[0].fogTo), beInWords(plan, w)]
      .filter(Boolean)
      .join(' '),
    beInMs: plan.beInBy?.atMs ?? null,
    none: plan.notPlanned === null ? '' : sentenceOf(tell(plan.notPlanned)),
    ...(plan.leftOut === undefined ? {} : { leftOut: sentenceOf(tell(plan.leftOut)) }),
    ...(isClosedDay(plan) ? { closedDay: true } : {}),
  };
}

type Pattern = Pick<BlockFacts, 'place' | 'lureClass'>;

const isSame = (a: Pattern, b: Pattern, tell: Teller): boolean =>
  a.place === b.place && tell(a.lureClass) === tell(b.lureClass);

/** What is told of the block that larger or more fish tend to be at. A day of one block has nothing to choose between. */
function marksOf(plan: PlanFacts, block: BlockFacts, { here }: Words['front'], tell: Teller): string[] {
  if (plan.blocks.length === 1) return [];
  return (['bigFish', 'manyFish'] as const).flatMap((id) => {
    const pattern = plan[id];
    if ('none' in pattern || plan.blocks.find((one) => isSame(one, pattern, tell)) !== block) return [];
    return [here[id]];
  });
}

/** What closes hours, by what the hazard is called; '' where nothing says it. */
function hazardWords(id: string, hazards: readonly HazardFacts[], tell: Teller): string {
  const found = hazards.find((hazard) => hazard.id === id);
  return (found === undefined ? tell.hazardLabel(id) : tell.hazard(found).label).toLowerCase();
}

/** When to be off the water: once and for good, or for a hazard that passes and again at the end of the plan. */
function beInWords({ beInBy, blocks, lightAllNight }: PlanFacts, w: Words['front']): string {
  if (beInBy === null) return lightAllNight === true ? w.lightAllNight : '';
  const again = blocks.find(({ fromMs }) => fromMs >= beInBy.atMs);
  return again === undefined
    ? w.beIn(beInBy.at)
    : w.offThenIn(beInBy.at, again.from, blocks.at(-1)?.to ?? again.to);
}

function saidBlock(block: BlockFacts, marks: readonly string[], words: Words, tell: Teller): PageBlock {
  const w = words.front;
  const kind = tell(block.name);
  const lure = tell(block.lureClass);
  const { fromMs, toMs, from, to, place, named, depthM } = block;
  return {
    fromMs,
    toMs,
    from,
    to,
    place,
    title: named ?? capital(kind),
    placeWords: named === undefined ? capital(kind) : w.placeNamed(inert(named), lowerFirst(kind)),
    depthM,
    lure: lureWords(block, lure, w),
    // That nothing ranks above a place is no reason to be told: the plan says so by naming it.
    because: [
      ...block.because
        .filter(({ code }) => code !== 'ranks')
        .map((reason) => sentenceOf(tell(reason)))
        .filter(Boolean),
      ...marks,
    ],
    giveUp: sentenceOf(tell(block.giveUp)),
    whyChange: [
      ...(block.fogTo === undefined ? [] : [w.inFog(block.fogTo)]),
      ...(block.startAt === undefined ? [] : [w.startLate(block.startAt)]),
      ...(block.whyChange === null ? [] : [sentenceOf(tell(block.whyChange))]),
      ...(block.wayM === undefined ? [] : [w.byWater(quantity('wayByWater', block.wayM))]),
    ]
      .filter(Boolean)
      .join(' '),
    cast: withLayer(saidCast(block.cast, kind, tell), block.layer, tell),
  };
}

/** A lure with the number by which it is bought: the length of a bait without any weight, else the weight. */
export function lureWords(
  { weightG, baitM }: { readonly weightG: number | null; readonly baitM?: number | undefined },
  lure: string,
  w: Words['front'],
): string {
  if (baitM !== undefined) return w.bait(quantity('baitLength', baitM), lure);
  return weightG === null ? lure : w.weighed(quantity('lureMass', weightG / 1000), lure);
}

/** Where the layer stands is the last thing to know before the lure goes down. */
const withLayer = (cast: PageCast, layer: BlockFacts['layer'], tell: Teller): PageCast =>
  layer === undefined
    ? cast
    : {
        ...cast,
        steps: [...cast.steps, sentenceOf(tell(layer))],
        ...(cast.stepKinds === undefined ? {} : { stepKinds: [...cast.stepKinds, 'layer'] }),
      };
