import type { DayPlan, NotOffered, OtherPattern, PlanBlock, PlanReason } from '../advice/plan/index.ts';
import { localDateAt } from '../units/time/index.ts';
import { PLACE, isIdOf } from '../vocabulary/index.ts';
import { castFault } from './bottom.ts';
import { disagreements } from './claims.ts';
import { planClaims, STATEMENT } from './planClaims.ts';
import { CIVIL_DEG, holdsAtFirst, lightBegins, reasonHolds } from './reason.ts';
import type { Check, Fault, World } from './types.ts';

const ALL_DAY = { fromMs: -Infinity, toMs: Infinity };
const LEAST_METRES = 0;
const PRINTED_M = 0.05;

const fault = (check: Check, of: string, found: string): Fault => ({ check, of, found });

/** What of the clock of a block cannot be so. */
function clockFault(block: PlanBlock, plan: DayPlan, world: World): string | null {
  if (block.toMs <= block.fromMs) return 'ends before it begins';
  const { fishing } = world;
  if (fishing === null) return 'no fishing hours are known';
  if (block.fromMs < fishing.fromMs || block.toMs > fishing.toMs) return 'lies outside the fishing hours';
  for (const closed of plan.closed) {
    if (closed.fromMs < block.toMs && closed.toMs > block.fromMs)
      return `lies in hours closed by ${closed.hazard}`;
  }
  if (!fishing.own) {
    for (const { fromMs, toMs } of world.hours) {
      const inside = fromMs < block.toMs && toMs > block.fromMs;
      // One instant's sun stands for an hour, so an hour is dark only if those beside it are too.
      const suns = world.hours.flatMap((hour) =>
        hour.fromMs <= toMs && hour.toMs >= fromMs && hour.sunAltitudeDeg !== undefined
          ? [hour.sunAltitudeDeg]
          : [],
      );
      if (inside && suns.length > 0 && Math.max(...suns) < CIVIL_DEG) return 'lies outside civil light';
    }
  }
  return null;
}

function depthFault(
  depthM: readonly [number, number],
  { limitM, positions, waterBody }: World,
): string | null {
  const [top, bottom] = depthM;
  if (!(top >= LEAST_METRES && bottom > top)) return 'is no band of depths';
  if (limitM !== undefined && bottom > limitM + PRINTED_M) return 'reaches below the oxygen';
  const bottomM = positions.deepestM[waterBody];
  if (bottomM !== undefined && bottom > bottomM + PRINTED_M) return `is deeper than a ${waterBody}`;
  return null;
}

function placeFault(place: string, { places, waterBody }: World): string | null {
  if (!isIdOf(PLACE, place)) return 'is no kind of place';
  if (PLACE[place].on[waterBody] === 'never') return `is no place of a ${waterBody}`;
  return places.has(place) ? null : 'is not on this water';
}

/** Whether a hazard closes a kind of place in a stretch of the day. */
function shutFault(
  place: string,
  { fromMs, toMs }: { readonly fromMs: number; readonly toMs: number },
  { closed }: World,
): string | null {
  const by = closed.find(
    ({ places, hours }) =>
      places.includes(place) &&
      (hours === undefined || hours.some((span) => span.fromMs < toMs && span.toMs > fromMs)),
  );
  return by === undefined ? null : `is closed by ${by.hazard}`;
}

function datesFault(block: PlanBlock, plan: DayPlan, world: World): string | null {
  if (plan.date !== world.date) return 'is of another day';
  if (block.fromMs > 86_400_000 && localDateAt(block.fromMs, world.zone) !== world.date)
    return 'begins on another day';
  if (world.validUntilMs !== undefined && block.fromMs > world.validUntilMs) return 'begins after the end';
  const change = block.whyChange;
  if (change !== null && change.atMs !== block.fromMs) return 'changes at another hour than it begins';
  return null;
}

/** Sentences that would stand twice on a page: the same rule, or the same fact with the same numbers. */
const sentenceKey = (reason: PlanReason): string =>
  reason.code === 'rule' ? `rule ${reason.rule}` : JSON.stringify(reason);

/** Which reason, for who reads of its fault. */
const nameOf = (reason: PlanReason): string => (reason.code === 'rule' ? reason.rule : reason.code);

/** A plan with only what passes, and what did not. */
export interface Gated {
  readonly plan: DayPlan;
  readonly faults: readonly Fault[];
}

/**
 * Checks every statement of a plan against the day's own numbers and drops what they do not bear out: a reason, a
 * change, another pattern, or a whole block where its place, hours, depth or cast cannot be so. Never breaks the page.
 */
export function gatePlan(plan: DayPlan, world: World): Gated {
  const faults: Fault[] = [];
  const said = new Set<string>();
  const note = (check: Check, of: string, found: string | null): boolean => {
    if (found !== null) faults.push(fault(check, of, found));
    return found === null;
  };
  let previousMs = -Infinity;
  let dropped = -1;
  const blocks = plan.blocks.flatMap((block, index): PlanBlock[] => {
    const of = `block ${index + 1}`;
    const sound = [
      note('place', of, placeFault(block.place, world) ?? shutFault(block.place, block, world)),
      note(
        'clock',
        of,
        block.fromMs < previousMs ? 'begins before the last one ends' : clockFault(block, plan, world),
      ),
      note('depth', of, depthFault(block.depthM, world)),
      note('bottom', of, castFault(block)),
      note('dates', of, datesFault(block, plan, world)),
    ].every(Boolean);
    if (!sound) {
      dropped = index;
      return [];
    }
    previousMs = block.toMs;
    // A change from a block that is not told is no change; the first one told has none.
    const told =
      index === 0 || (dropped >= 0 && dropped === index - 1) ? { ...block, whyChange: null } : block;
    const because = block.because.filter((reason) => {
      if (
        !note(
          'reason',
          `${of} ${nameOf(reason)}`,
          reasonHolds(reason, block, world) ? null : 'is not true then',
        )
      )
        return false;
      const key = sentenceKey(reason);
      if (!note('once', `${of} ${nameOf(reason)}`, said.has(key) ? 'is said twice' : null)) return false;
      said.add(key);
      return true;
    });
    return [{ ...block, because, whyChange: changeOf(told, plan, index, world, note, of) }];
  });
  const other = (pattern: OtherPattern | NotOffered, of: string): OtherPattern | NotOffered => {
    if ('none' in pattern) return pattern;
    const sound = [
      note('place', of, placeFault(pattern.place, world) ?? shutFault(pattern.place, ALL_DAY, world)),
      note('depth', of, depthFault(pattern.depthM, world)),
    ].every(Boolean);
    if (!sound) return { none: { code: 'unknown' } };
    const day = {
      ...(plan.fishing ?? { fromMs: 0, toMs: 0, from: '', to: '' }),
      closed: plan.closed,
      place: pattern.place,
    };
    const because = pattern.because.filter((reason) => {
      if (reason.code === 'rule' || reason.code === 'ranks') {
        if (
          !note(
            'reason',
            `${of} ${nameOf(reason)}`,
            reasonHolds(reason, day, world) ? null : 'is not true then',
          )
        )
          return false;
      }
      // Where a place ranks is no sentence of the page beside its name.
      if (reason.code === 'ranks') return true;
      const key = sentenceKey(reason);
      if (!note('once', `${of} ${nameOf(reason)}`, said.has(key) ? 'is said twice' : null)) return false;
      said.add(key);
      return true;
    });
    return { ...pattern, because };
  };
  const second = other(plan.second, 'second');
  const bigFish = other(plan.bigFish, 'big fish');
  const manyFish = other(plan.manyFish, 'many fish');
  const inBy =
    plan.beInBy !== null &&
    note(
      'clock',
      'be in by',
      plan.closed.some(
        ({ fromMs, toMs }) => fromMs < (plan.beInBy?.atMs ?? 0) && toMs > (plan.beInBy?.atMs ?? 0),
      )
        ? 'lies in closed hours'
        : null,
    );
  const passed = { ...plan, blocks, second, bigFish, manyFish, beInBy: inBy ? plan.beInBy : null };
  const agreed = inOneFigure(passed, world, faults);
  return {
    plan: {
      ...agreed,
      notPlanned:
        agreed.blocks.length === 0 ? (plan.notPlanned ?? { code: 'nothingHolds' }) : plan.notPlanned,
    },
    faults,
  };
}

/** The plan without what tells another figure of one thing and hour than a weightier statement does. */
function inOneFigure(plan: DayPlan, world: World, faults: Fault[]): DayPlan {
  const dropped = new Set<string>();
  for (const { weaker, stronger } of disagreements(planClaims(plan, world))) {
    dropped.add(weaker.statement);
    const { figure, of, value } = weaker;
    faults.push(
      fault('figures', weaker.statement, `${figure} of ${of}: ${value}, against ${stronger.value} elsewhere`),
    );
  }
  if (dropped.size === 0) return plan;
  let gone = false;
  const blocks = plan.blocks.flatMap((block, index): PlanBlock[] => {
    const before = gone;
    gone = dropped.has(STATEMENT.block(index));
    if (gone) return [];
    const changes = !before && !dropped.has(STATEMENT.change(index));
    return [
      {
        ...block,
        because: block.because.filter(({ code }, at) => !dropped.has(STATEMENT.reason(index, at, code))),
        whyChange: changes ? block.whyChange : null,
      },
    ];
  });
  const other = (statement: string, pattern: OtherPattern | NotOffered): OtherPattern | NotOffered =>
    dropped.has(statement) ? { none: { code: 'unknown' } } : pattern;
  const rest = {
    ...plan,
    blocks,
    second: other(STATEMENT.second, plan.second),
    bigFish: other(STATEMENT.bigFish, plan.bigFish),
    manyFish: other(STATEMENT.manyFish, plan.manyFish),
    beInBy: dropped.has(STATEMENT.beInBy) ? null : plan.beInBy,
  };
  // What leaned on a dropped block now leans on another. Each round drops something, so there is a last one.
  return inOneFigure(rest, world, faults);
}

type Note = (check: Check, of: string, found: string | null) => boolean;

/** The change into a block, when what it says is true of the block it speaks of. */
function changeOf(
  block: PlanBlock,
  plan: DayPlan,
  index: number,
  world: World,
  note: Note,
  of: string,
): PlanBlock['whyChange'] {
  const change = block.whyChange;
  if (change === null) return null;
  const before = plan.blocks[index - 1];
  const span = change.code === 'over' ? before : block;
  const holds =
    change.code === 'reason' || change.code === 'over'
      ? span !== undefined &&
        reasonHolds(change.reason, span, world) &&
        (change.code === 'over' || holdsAtFirst(change.reason, span, world))
      : change.code === 'light'
        ? lightBegins(change.light, block, world)
        : change.code === 'hazardEnds'
          ? plan.closed.some(({ hazard, toMs }) => hazard === change.hazard && toMs <= block.fromMs + 1)
          : true;
  return note('reason', `${of} change`, holds ? null : 'is not true then') ? change : null;
}
