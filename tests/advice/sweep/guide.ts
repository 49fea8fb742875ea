import type { DayPlan, PlanBlock } from '../../../src/advice/plan/types.ts';
import type { Understood } from '../../../src/advice/whatIf/index.ts';
import { along } from '../../../src/advice/presentation/curves.ts';
import { PLACE, isIdOf } from '../../../src/vocabulary/index.ts';
import { rules } from '../support.ts';

const MINUTE_MS = 60_000;
const classes = new Map(rules.lures.classes.map((lure) => [lure.id, lure]));
const traitsOf = new Map(Object.entries(rules.lures.places));

/** Water over 12 mph is no water for a surface lure in the open (common practice, no source). */
const SURFACE_WIND_MS = 5.4;
/** Thinnest line or leader for heavy cover, kg (8 lb; common practice, no source: the trade says 10 to 20). */
const COVER_LINE_KG = 3.6;

type Day = Pick<Understood, 'conditions' | 'day'>;

/** Moved farther or rested for less than its class is in water of that temperature. */
function isHurried({ cast: { told } }: PlanBlock): boolean {
  const { move, rest } = classes.get(told.lureClass)!;
  if (told.family !== 'bottom') return false;
  const { waterC } = told.water;
  return (
    (move !== undefined && (told.moveM ?? 0) > along(move, waterC) + 1e-9) ||
    (rest !== undefined && told.pauseS < along(rest, waterC) - 1e-9)
  );
}

/** What a guide would shake their head at in one block. */
function ofBlock(block: PlanBlock, { conditions, day }: Day): string[] {
  const { signals, waterBody } = conditions;
  const lure = classes.get(block.lure.lureClass)!;
  const traits = traitsOf.get(block.place)!;
  const winds = day.hours
    .filter(({ fromMs, toMs }) => toMs > block.fromMs && fromMs < block.toMs)
    .map(({ fromMs, toMs, windMs = signals.windMs?.value ?? 0 }) => ({
      windMs,
      weight: Math.min(toMs, block.toMs) - Math.max(fromMs, block.fromMs),
    }));
  const wind =
    winds.reduce((sum, { windMs, weight }) => sum + windMs * weight, 0) / (block.toMs - block.fromMs);
  const clarityM = signals.clarityM?.value;
  const waterC = block.pace.waterC ?? signals.waterC?.value;
  const { line, weightG, family } = block.lure;
  const thinnest = line?.leaderKg ?? line?.kg ?? 0;
  const found: [string, boolean][] = [
    [
      'a place this water never has',
      !isIdOf(PLACE, block.place) || PLACE[block.place].on[waterBody] === 'never',
    ],
    [
      `${lure.id} in water of another temperature`,
      waterC !== undefined && (waterC < lure.waterC.min - 0.1 || waterC > lure.waterC.max + 0.1),
    ],
    [`${lure.id} in water too blind for it`, clarityM !== undefined && clarityM < lure.clarityM[0] / 4],
    [
      'a surface lure in open waves',
      lure.family === 'surface' && wind > SURFACE_WIND_MS + 0.05 && ['open', 'rock'].includes(traits.kind),
    ],
    ['a sinking lure without weight', family !== 'surface' && weightG === null],
    ['thin line in heavy cover', traits.cover === 'heavy' && thinnest < COVER_LINE_KG],
    [
      'a lure that hangs in what the place is made of',
      traits.cover === 'heavy' &&
        lure.comesThrough[
          traits.kind === 'dock'
            ? 'dock'
            : traits.kind === 'grass' || traits.kind === 'stems'
              ? 'grass'
              : traits.kind === 'pads' || traits.kind === 'mat'
                ? 'mat'
                : 'wood'
        ] <= 1,
    ],
    ['a lure under the fish', block.cast.runningDepthM > block.depthM[1] + 0.3],
    [
      'a lure under the bottom',
      block.cast.runningDepthM > Math.max(block.cast.boatDepthM, block.cast.castDepthM) + 0.06,
    ],
    [
      'a diving lure with no water under it at the boat',
      family === 'diving' && block.cast.boatDepthM - block.cast.runningDepthM < 0.14,
    ],
    ['a light lure in a wind that takes it', lure.wind.most !== undefined && wind > lure.wind.most + 0.05],
    ['a lure that the water asks to be slower', isHurried(block)],
    ['a choice of hooks', block.lure.hook !== null && /\d\/?0?-\d| or /.test(block.lure.hook)],
    ['a band of no depth', !(block.depthM[1] - block.depthM[0] >= 0.25)],
    ['a depth without oxygen', day.limitM !== undefined && block.depthM[1] > day.limitM + 0.05],
    ['leaves after its end', block.giveUp.minutes * MINUTE_MS >= block.toMs - block.fromMs],
    ['no reason', block.because.length === 0],
  ];
  return found.flatMap(([what, isSo]) => (isSo ? [what] : []));
}

/** What a guide would shake their head at in a plan; empty when nothing. */
export function objections(plan: DayPlan, day: Day): string[] {
  const { blocks, fishing, closed, beInBy, bigFish, manyFish, second } = plan;
  const found = blocks.flatMap((block, index) => {
    const before = blocks[index - 1];
    const own = ofBlock(block, day);
    if (before !== undefined && block.fromMs < before.toMs) own.push('begins before the last one ends');
    const stays = before?.place === block.place && before.toMs === block.fromMs;
    if (stays && before.lure.lureClass === block.lure.lureClass) own.push('a move to where one is');
    if (fishing === null || block.fromMs < fishing.fromMs || block.toMs > fishing.toMs)
      own.push('outside the fishing hours');
    if (closed.some(({ fromMs, toMs }) => fromMs < block.toMs && toMs > block.fromMs))
      own.push('in closed hours');
    if (beInBy !== null && block.fromMs < beInBy.atMs && block.toMs > beInBy.atMs)
      own.push('goes on after the hour to be in');
    return own;
  });
  const other = [bigFish, manyFish, second].flatMap((pattern) => {
    if ('none' in pattern) return [];
    const place = pattern.place;
    return isIdOf(PLACE, place) && PLACE[place].on[day.conditions.waterBody] !== 'never'
      ? []
      : ['a pattern at a place this water never has'];
  });
  if (!('none' in second) && blocks.some(({ place }) => place === second.place))
    found.push('a second pattern that is the plan');
  if (blocks.length > 4) found.push('more than four blocks');
  return [...found, ...other];
}
