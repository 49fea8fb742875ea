import type { DayPlan } from '../../src/advice/plan/types.ts';
import { planDay } from '../../src/advice/plan/index.ts';
import { phaseAdvice } from '../../src/advice/phase.ts';
import { placesHere, standingOn } from '../../src/advice/positions/here.ts';
import { positionAdvice } from '../../src/advice/positions/positions.ts';
import { knownOf } from '../../src/advice/rules/known.ts';
import { judgeSafety } from '../../src/advice/safety/index.ts';
import { understand, whatIfSchema } from '../../src/advice/whatIf/index.ts';
import { worldOf, type World } from '../../src/gate/index.ts';
import { rules, TACKLE, type Form } from '../advice/support.ts';

/** The plan of a form before the gate, and the world it is held against. */
export function dayOf(form: Form): { plan: DayPlan; world: World } {
  const read = whatIfSchema.parse(form);
  const { conditions, day } = understand(read);
  const known = knownOf(conditions);
  const phase = phaseAdvice(known, rules.phases);
  const extras = { alerts: [], alertsChecked: false, belowDam: conditions.waterBody === 'tailwater' };
  const positions = positionAdvice({
    known,
    membership: phase.membership,
    rules: rules.positions,
    today: { hours: [], localHour: () => 0, nowMs: conditions.asOfMs },
    pockets: [],
    points: [],
    here: standingOn(placesHere(conditions.waterBody, read.places), rules.positions, {
      ...known,
      membership: phase.membership,
    }),
  });
  const safety = judgeSafety(conditions, rules.safety, extras);
  const plan = planDay({
    conditions,
    rules,
    phase,
    positions,
    safety,
    extras,
    tackle: TACKLE,
    ...day,
    nowMs: -Infinity,
  });
  const world = worldOf(conditions, phase, rules, day, {
    places: read.places,
    limitM: day.limitM,
    safety,
  });
  return { plan, world };
}
