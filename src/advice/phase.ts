import type { Curve, PhaseRules } from '../config/index.ts';
import type { SignalId } from '../signals/index.ts';
import { curveAt } from './rules/curve.ts';
import type { Known } from './rules/known.ts';
import { PHASES, type PhaseAdvice, type PhaseId, type SeasonFact } from './types.ts';

type Shares = Readonly<Record<PhaseId, number>>;

/** What the season is told by; no other number moves it. */
export const SEASON_SIGNALS: readonly SignalId[] = [
  'waterC',
  'waterChange7dC',
  'pocketMinusMainC',
  'dayLengthH',
  'dayLengthChangeHPerWeek',
];

type PhaseRule = PhaseRules['phases'][number];

/** The least share a phase has by the water: of water that tells no season, much. */
const waterFloor = ({ waterBody }: Known, { byDate }: PhaseRules): number =>
  byDate?.waterBody.includes(waterBody) === true ? byDate.waterFloor : 0;

/** How far the days grow, 0..1: near both solstices the two halves blend, so that the turn of the year is no step. */
const lengtheningOf = ({ signals }: Known): number =>
  Math.min(1, Math.max(0, 0.5 + (signals.dayLengthChangeHPerWeek ?? 0) / 0.2));

const highest = (curve: Curve): number => Math.max(...curve.map(([, share]) => share));

/** Share of a phase by the light of a day; for `half` by the half of the year alone, where light and water disagree. */
function lightShare({ lengthening, shortening }: PhaseRule, known: Known, by: 'day' | 'half'): number {
  const { dayLengthH } = known.signals;
  if (dayLengthH === undefined) return 1;
  const of = (curve: Curve): number =>
    by === 'day' ? curveAt(curve, dayLengthH) : highest(curve) > 0 ? 1 : 0;
  const grows = lengtheningOf(known);
  return grows * of(lengthening) + (1 - grows) * of(shortening);
}

function rawShares(known: Known, rules: PhaseRules, useTrend: boolean, by: 'day' | 'half'): Shares {
  const { waterC, waterChange7dC, pocketMinusMainC } = known.signals;
  const shift = rules.shiftC[known.species];
  const floor = waterFloor(known, rules);
  const shares = Object.fromEntries(PHASES.map((id) => [id, 0])) as Record<PhaseId, number>;
  for (const phase of rules.phases) {
    let share =
      waterC === undefined
        ? 1
        : Math.max(floor, curveAt(phase.water, phase.spawning ? waterC - shift : waterC));
    const trend = useTrend && waterChange7dC !== undefined ? curveAt(phase.trend, waterChange7dC) : undefined;
    const pocket =
      phase.pocket && pocketMinusMainC !== undefined ? curveAt(phase.pocket, pocketMinusMainC) : undefined;
    // A warm pocket stands in for a warming lake: the fish that can reach it live in the later phase already.
    if (trend !== undefined) share *= Math.max(trend, pocket ?? 0);
    else if (pocket !== undefined) share *= Math.max(0.7, pocket);
    share *= rules.daylightFloor + (1 - rules.daylightFloor) * lightShare(phase, known, by);
    shares[phase.id] = share;
  }
  return shares;
}

/** A sentence about a place in a season is said only where the season is at least this much of the day. */
const SAID_FROM = 0.35;

/**
 * Whether what the rules say of places in a season may be said of a day: of the season that leads alone, since those of
 * two seasons may contradict each other.
 */
export const saysItself = (season: PhaseId, membership: Shares): boolean =>
  membership[season] >= SAID_FROM && PHASES.every((other) => membership[other] <= membership[season]);

const total = (shares: Shares): number => PHASES.reduce((sum, id) => sum + shares[id], 0);

/** Below this sum of shares trend and light contradict the water, and the water alone fills up the rest. */
const CLEAR = 0.3;

/** Membership of the day in the nine season phases, 0..1 each, sum 1. Unknown signals widen it. */
export function phaseMembership(known: Known, rules: PhaseRules): Shares {
  const shares: Record<PhaseId, number> = { ...rawShares(known, rules, true, 'day') };
  // A season no curve foresees (hot water in midwinter) is judged by the water and the half of the year, smoothly
  // taking over: no fall while the days grow, no spring while they shorten.
  const sum = total(shares);
  const fallback = sum < CLEAR ? rawShares(known, rules, false, 'half') : null;
  if (fallback !== null) {
    const all = Math.max(total(fallback), 1e-9);
    for (const id of PHASES) shares[id] += ((CLEAR - sum) * fallback[id]) / all;
  }
  const whole = total(shares);
  return Object.fromEntries(
    PHASES.map((id) => [id, whole > 0 ? shares[id] / whole : 1 / PHASES.length]),
  ) as Shares;
}

/** Whether a phase leads by the light of the year alone: its water is not there. */
function isByDate(leading: PhaseId, waterC: number, known: Known, rules: PhaseRules): boolean {
  const phase = rules.phases.find(({ id }) => id === leading);
  if (phase === undefined) return false;
  const shift = phase.spawning === true ? rules.shiftC[known.species] : 0;
  return curveAt(phase.water, waterC - shift) < waterFloor(known, rules);
}

/** From this membership a second phase is named beside the leading one. */
const PARTLY = 0.25;

/** Phases of the half of the year in which the days grow, and of the other; winter and summer are of both. */
const GROWING: readonly PhaseId[] = ['early_prespawn', 'prespawn', 'spawn', 'postspawn'];
const SHRINKING: readonly PhaseId[] = ['early_fall', 'fall', 'late_fall'];

/** Whether a phase is of the half of the year that has passed: no fall is told in January, however the water cools. */
const isOfOtherHalf = (phase: PhaseId, known: Known): boolean =>
  known.signals.dayLengthChangeHPerWeek !== undefined &&
  (lengtheningOf(known) > 0.5 ? SHRINKING : GROWING).includes(phase);

/** Membership with the leading phase and what it rests on. */
export function phaseAdvice(known: Known, rules: PhaseRules): PhaseAdvice {
  const membership = phaseMembership(known, rules);
  const [leading = 'winter', second = leading] = [...PHASES].sort((a, b) => membership[b] - membership[a]);
  const { waterC, waterChange7dC = null, dayLengthH = null } = known.signals;
  const partly = membership[second] > PARTLY && !isOfOtherHalf(second, known) ? second : null;
  const because: SeasonFact =
    waterC === undefined
      ? { code: 'waterUnknown', dayLengthH, partly }
      : {
          code: 'byWater',
          leading,
          waterC,
          waterChange7dC,
          dayLengthH,
          partly,
          waterBody: known.waterBody,
          ...(isByDate(leading, waterC, known, rules) ? { byDate: true } : {}),
        };
  return { membership, leading, because };
}
