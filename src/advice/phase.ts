import type { PhaseRules } from '../config/index.ts';
import type { SignalId } from '../signals/index.ts';
import { curveAt } from './rules/curve.ts';
import type { Known } from './rules/known.ts';
import { PHASES, type PhaseAdvice, type PhaseId, type SeasonFact } from './types.ts';

type Shares = Record<PhaseId, number>;

/** What the season is told by; no other number moves it. */
export const SEASON_SIGNALS: readonly SignalId[] = [
  'waterC',
  'waterChange7dC',
  'pocketMinusMainC',
  'dayLengthH',
  'dayLengthChangeHPerWeek',
];

function rawShares(known: Known, rules: PhaseRules, useTrend: boolean, useLight: boolean): Shares {
  const { waterC, waterChange7dC, pocketMinusMainC, dayLengthH, dayLengthChangeHPerWeek } = known.signals;
  const shift = rules.shiftC[known.species];
  const shares = Object.fromEntries(PHASES.map((id) => [id, 0])) as Shares;
  for (const phase of rules.phases) {
    let share = 1;
    if (waterC !== undefined) share *= curveAt(phase.water, phase.spawning ? waterC - shift : waterC);
    const trend = useTrend && waterChange7dC !== undefined ? curveAt(phase.trend, waterChange7dC) : undefined;
    const pocket =
      phase.pocket && pocketMinusMainC !== undefined ? curveAt(phase.pocket, pocketMinusMainC) : undefined;
    // A warm pocket stands in for a warming lake: the fish that can reach it live in the later phase already.
    if (trend !== undefined) share *= Math.max(trend, pocket ?? 0);
    else if (pocket !== undefined) share *= Math.max(0.7, pocket);
    if (useLight && dayLengthH !== undefined) {
      const turn = dayLengthChangeHPerWeek ?? 0;
      // Near both solstices the two curves blend, so that the turn of the year is no step.
      const lengthening = Math.min(1, Math.max(0, 0.5 + turn / 0.2));
      const light =
        lengthening * curveAt(phase.lengthening, dayLengthH) +
        (1 - lengthening) * curveAt(phase.shortening, dayLengthH);
      share *= rules.daylightFloor + (1 - rules.daylightFloor) * light;
    }
    shares[phase.id] = share;
  }
  return shares;
}

const total = (shares: Shares): number => PHASES.reduce((sum, id) => sum + shares[id], 0);

/** Below this sum of shares trend and light contradict the water, and the water alone fills up the rest. */
const CLEAR = 0.3;

/** Membership of the day in the nine season phases, 0..1 each, sum 1. Unknown signals widen it. */
export function phaseMembership(known: Known, rules: PhaseRules): Shares {
  const shares = rawShares(known, rules, true, true);
  // A season no curve foresees (hot water in midwinter) is judged by the water, smoothly taking over.
  const sum = total(shares);
  const fallback = sum < CLEAR ? rawShares(known, rules, false, false) : null;
  if (fallback !== null) {
    const all = Math.max(total(fallback), 1e-9);
    for (const id of PHASES) shares[id] += ((CLEAR - sum) * fallback[id]) / all;
  }
  const whole = total(shares);
  return Object.fromEntries(
    PHASES.map((id) => [id, whole > 0 ? shares[id] / whole : 1 / PHASES.length]),
  ) as Shares;
}

/** From this membership a second phase is named beside the leading one. */
const PARTLY = 0.25;

/** Membership with the leading phase and what it rests on. */
export function phaseAdvice(known: Known, rules: PhaseRules): PhaseAdvice {
  const membership = phaseMembership(known, rules);
  const [leading = 'winter', second = leading] = [...PHASES].sort((a, b) => membership[b] - membership[a]);
  const { waterC, waterChange7dC = null, dayLengthH = null } = known.signals;
  const partly = membership[second] > PARTLY ? second : null;
  const because: SeasonFact =
    waterC === undefined
      ? { code: 'waterUnknown', dayLengthH, partly }
      : { code: 'byWater', leading, waterC, waterChange7dC, dayLengthH, partly };
  return { membership, leading, because };
}
