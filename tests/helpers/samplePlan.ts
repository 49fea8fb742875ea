/** A plan of two blocks over the hours of a document, made of its own places and casts: for pages, not for advice. */
import { type Briefing, type PlanFacts } from '../../src/briefing/index.ts';
import { said } from './saidAdvice.ts';
import { HOUR_MS } from '../../src/units/time/calendar.ts';
import { clock } from '../../src/words/index.ts';

export function withPlan(facts: Briefing, closedHours = 0): Briefing {
  if (facts.status === 'nil' || facts.safety.level === 4) return facts;
  const { sun } = facts.series;
  const [first, second] = facts.positions;
  const [cast, other] = facts.casts;
  const fromMs = sun.dawnMs ?? sun.riseMs;
  const toMs = sun.duskMs ?? sun.setMs;
  if (first === undefined || second === undefined || cast === undefined || fromMs == null || toMs == null)
    return facts;
  const { zone } = facts.lake;
  const span = (from: number, to: number) => ({
    fromMs: from,
    toMs: to,
    from: clock(from, zone),
    to: clock(to, zone),
  });
  const middle = Math.round((fromMs + 4.5 * HOUR_MS) / HOUR_MS) * HOUR_MS;
  const end = toMs - closedHours * HOUR_MS;
  const block = (
    place: typeof first,
    used: typeof cast,
    from: number,
    to: number,
    weightG: number | null,
  ) => ({
    ...span(from, to),
    place: place.place,
    name: place.name,
    ...(place.named === undefined ? {} : { named: place.named }),
    depthM: place.depthM,
    lureClass: used.lureClass,
    weightG,
    because: place.because.slice(0, 1),
    giveUp: said('Leave after 40 minutes without a bite.'),
    whyChange: from === fromMs ? null : said(`From ${clock(from, zone)} the water there is warmer.`),
    cast: { ...used, place: place.place },
  });
  const plan: PlanFacts = {
    fishing: span(fromMs, toMs),
    blocks: [block(second, other ?? cast, fromMs, middle, 10.6), block(first, cast, middle, end, null)],
    second: { none: said('No other place comes near today.') },
    manyFish: { none: said('They are at the same places today.') },
    bigFish: {
      place: second.place,
      name: second.name,
      depthM: second.depthM,
      lureClass: cast.lureClass,
      because: [],
    },
    closed: closedHours === 0 ? [] : [{ ...span(end, toMs), hazard: 'wind', level: 3 }],
    beInBy: { atMs: end, at: clock(end, zone), because: said('') },
    notPlanned: null,
  };
  return { ...facts, plan };
}
