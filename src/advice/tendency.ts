import type { RuleBook } from '../config/rules.ts';
import type { Conditions, SignalReport } from '../signals/types.ts';
import { phaseMembership } from './phase.ts';
import { rankPlaces, scorePlaces } from './positions/score.ts';
import { applyWhen, phaseShare } from './rules/apply.ts';
import { knownOf } from './rules/known.ts';
import type { Tendency } from './types.ts';

type Rules = Pick<RuleBook, 'positions' | 'phases'>;
type Word = Tendency['word'];

interface DayWorth {
  readonly worth: number;
  readonly parts: ReadonlyMap<string, number>;
  readonly firstPlace: string;
}

function worthOf(conditions: Conditions, rules: Rules): DayWorth {
  const known = knownOf(conditions);
  const membership = phaseMembership(known, rules.phases);
  const parts = new Map<string, number>();
  for (const rule of rules.positions.tendency) {
    const applied = applyWhen(rule.when, known);
    const points = applied === null ? 0 : rule.points * applied.share * phaseShare(rule.phases, membership);
    parts.set(rule.sentence, points);
  }
  return {
    worth: [...parts.values()].reduce((sum, points) => sum + points, 0),
    parts,
    firstPlace: rankPlaces(scorePlaces(known, membership, rules.positions))[0]?.place ?? '',
  };
}

/** The change that speaks most for the word: something that sets in, or something that ends. */
function reason(today: DayWorth, then: DayWorth, word: Word): string {
  let best: { words: string; size: number } | null = null;
  for (const [sentence, points] of then.parts) {
    const before = today.parts.get(sentence) ?? 0;
    const change = points - before;
    if (word !== 'steady' && Math.sign(change) !== (word === 'improving' ? 1 : -1)) continue;
    const words = Math.abs(points) > Math.abs(before) ? sentence : `the end of ${sentence}`;
    if (best === null || Math.abs(change) > best.size) best = { words, size: Math.abs(change) };
  }
  return word === 'steady' || best === null || best.size < 0.05
    ? 'no significant change in what moves the fish'
    : best.words;
}

function wordOf(change: number, band: number): Word {
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
  const now = worthOf(today, rules);
  const coming = [...ahead]
    .sort((a, b) => a.lead - b.lead)
    .slice(0, 7)
    .map((day) => ({ date: day.date, lead: day.lead, ...worthOf(day.conditions, rules) }));
  const days = coming.map((day) => {
    const word = wordOf(day.worth - now.worth, band);
    return { date: day.date, word, firstPlace: day.firstPlace, because: reason(now, day, word) };
  });
  const near = coming.slice(0, 3);
  const mean = near.reduce((sum, day) => sum + day.worth, 0) / near.length;
  const word = wordOf(mean - now.worth, band);
  const strongest = [...near].sort(
    (a, b) => Math.abs(b.worth - now.worth) - Math.abs(a.worth - now.worth),
  )[0];
  const best = [...coming].sort((a, b) => b.worth - a.worth)[0];
  const second = [...coming].sort((a, b) => b.worth - a.worth)[1];
  const stands =
    best !== undefined &&
    best.worth > now.worth + band &&
    (second === undefined || best.worth > second.worth + 0.1);
  return {
    word,
    because: strongest ? reason(now, strongest, word) : 'no significant change in what moves the fish',
    trigger: triggerOf(word, now),
    days,
    ...(stands ? { bestDay: { date: best.date, because: reason(now, best, 'improving') } } : {}),
  };
}

function triggerOf(word: Word, now: DayWorth): string {
  const cold = now.parts.get('water hotter than bass like') === 0;
  if (word === 'declining') {
    return cold
      ? 'Better if the cooling stays away or a warm rain comes instead.'
      : 'Better if cloud, wind or a cool inflow comes.';
  }
  if (word === 'improving') {
    return cold
      ? 'It would end with a cold clear night or a hard drop in air temperature.'
      : 'It would end if the heat stays or the wind drops.';
  }
  return cold
    ? 'A run of warming days or a warm rain would lift it; a front would lower it.'
    : 'A cooler spell or moving water would lift it; more heat would lower it.';
}
