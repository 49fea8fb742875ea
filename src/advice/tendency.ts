import type { RuleBook } from '../config/rules.ts';
import type { Conditions, SignalReport } from '../signals/types.ts';
import { phaseMembership } from './phase.ts';
import { rankPlaces, scorePlaces } from './positions/score.ts';
import { applyWhen, phaseShare } from './rules/apply.ts';
import { knownOf, knownOnBoth, type Known } from './rules/known.ts';
import type { Tendency, TendencyFact, TendencyWord } from './types.ts';

type Rules = Pick<RuleBook, 'positions' | 'phases'>;
type TendencyRule = Rules['positions']['tendency'][number];

/** What one rule gives a day ahead and today, points, by what is known of both. */
interface Part {
  readonly rule: TendencyRule;
  readonly before: number;
  readonly then: number;
}

interface Compared {
  readonly gain: number;
  readonly parts: readonly Part[];
}

function pointsOf(rule: TendencyRule, known: Known, rules: Rules): number {
  const applied = applyWhen(rule.when, known);
  if (applied === null) return 0;
  return rule.points * applied.share * phaseShare(rule.phases, phaseMembership(known, rules.phases));
}

/** A signal that has no forecast, such as the level, would seem to end tomorrow: it counts on neither day. */
function compare(today: Known, then: Known, rules: Rules): Compared {
  const [now, coming] = knownOnBoth(today, then);
  const parts = rules.positions.tendency.map((rule) => ({
    rule,
    before: pointsOf(rule, now, rules),
    then: pointsOf(rule, coming, rules),
  }));
  return { gain: parts.reduce((sum, part) => sum + part.then - part.before, 0), parts };
}

function firstPlaceOf(known: Known, rules: Rules): string {
  const membership = phaseMembership(known, rules.phases);
  return rankPlaces(scorePlaces(known, membership, rules.positions))[0]?.place ?? '';
}

/** A rule with less than this share of what it gave before counts as ended. */
const ENDED_SHARE = 0.2;

function factOf({ rule, before, then }: Part): TendencyFact {
  if (Math.abs(then) > Math.abs(before)) return { code: 'setsIn', rule: rule.id };
  return { code: Math.abs(then) <= ENDED_SHARE * Math.abs(before) ? 'ends' : 'eases', rule: rule.id };
}

const NO_CHANGE: TendencyFact = { code: 'noChange' };

/** The change that speaks most for the word: something that sets in, eases or ends. */
function reason({ parts }: Compared, word: TendencyWord): TendencyFact {
  if (word === 'steady') return NO_CHANGE;
  const sign = word === 'improving' ? 1 : -1;
  const sizeOf = (part: Part): number => sign * (part.then - part.before);
  const best = [...parts].sort((a, b) => sizeOf(b) - sizeOf(a))[0];
  return best === undefined || sizeOf(best) < 0.05 ? NO_CHANGE : factOf(best);
}

function wordOf(change: number, band: number): TendencyWord {
  if (change > band) return 'improving';
  return change < -band ? 'declining' : 'steady';
}

/**
 * Whether the coming days get better or worse than today, from the forecast's own conditions, with the reason, what
 * would change it, and the best day where it stands out. Null without a forecast.
 */
export function tendencyOf(today: Conditions, ahead: SignalReport['ahead'], rules: Rules): Tendency | null {
  if (ahead.length === 0) return null;
  const band = rules.positions.tendencyBand;
  const now = knownOf(today);
  const coming = [...ahead]
    .sort((a, b) => a.lead - b.lead)
    .slice(0, 7)
    .map(({ date, conditions }) => {
      const then = knownOf(conditions);
      return { date, firstPlace: firstPlaceOf(then, rules), ...compare(now, then, rules) };
    });
  const days = coming.map((day) => {
    const word = wordOf(day.gain, band);
    return { date: day.date, word, firstPlace: day.firstPlace, because: reason(day, word) };
  });
  const near = coming.slice(0, 3);
  const word = wordOf(near.reduce((sum, day) => sum + day.gain, 0) / near.length, band);
  const strongest = [...near].sort((a, b) => Math.abs(b.gain) - Math.abs(a.gain))[0];
  const [best, second] = [...coming].sort((a, b) => b.gain - a.gain);
  const stands =
    best !== undefined && best.gain > band && (second === undefined || best.gain > second.gain + 0.1);
  return {
    word,
    because: strongest ? reason(strongest, word) : NO_CHANGE,
    trigger: { code: word, heat: inHeat(now, rules) },
    days,
    ...(stands ? { bestDay: { date: best.date, because: reason(best, 'improving') } } : {}),
  };
}

/** Whether heat weighs on the day: then other things than warmth would change the tendency. */
function inHeat(now: Known, rules: Rules): boolean {
  return rules.positions.tendency.some((rule) => rule.about === 'heat' && pointsOf(rule, now, rules) !== 0);
}
