import type { RuleBook, SafetyTable } from '../config/index.ts';
import type { Conditions, HourPoint, SignalReport } from '../signals/index.ts';
import { DAY_MS } from '../units/time/index.ts';
import { airTurns, airTurnsOfDays } from './airTurns.ts';
import { phaseMembership } from './phase.ts';
import { rankPlaces, scorePlaces } from './positions/score.ts';
import { applyWhen, phaseShare } from './rules/apply.ts';
import { knownOf, knownOnBoth, type Known } from './rules/known.ts';
import { judgeSafety, safetyHour, type SafetyExtras } from './safety/index.ts';
import type { AirTurn, Tendency, TendencyFact, TendencyWord } from './types.ts';

type Rules = Pick<RuleBook, 'positions' | 'phases' | 'safety'>;
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

/** @param membership of the season phases by what is known */
function pointsOf(rule: TendencyRule, known: Known, membership: ReturnType<typeof phaseMembership>): number {
  const applied = applyWhen(rule.when, known);
  return applied === null ? 0 : rule.points * applied.share * phaseShare(rule.phases, membership);
}

/** A signal that has no forecast, such as the level, would seem to end tomorrow: it counts on neither day. */
function compare(today: Known, then: Known, rules: Rules): Compared {
  const [now, coming] = knownOnBoth(today, then);
  const nowIn = phaseMembership(now, rules.phases);
  const comingIn = phaseMembership(coming, rules.phases);
  const parts = rules.positions.tendency.map((rule) => ({
    rule,
    before: pointsOf(rule, now, nowIn),
    then: pointsOf(rule, coming, comingIn),
  }));
  return { gain: parts.reduce((sum, part) => sum + part.then - part.before, 0), parts };
}

function firstPlaceOf(known: Known, rules: Rules, places: ReadonlySet<string>): string {
  const membership = phaseMembership(known, rules.phases);
  return rankPlaces(scorePlaces(known, membership, rules.positions, places))[0]?.place ?? '';
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

/** What the days ahead are judged with besides their conditions. */
export interface Ahead {
  readonly days: SignalReport['ahead'];
  /** Kinds of place that this water has: no other is named for a coming day. */
  readonly places: ReadonlySet<string>;
  /** Today's local hours. */
  readonly hours: readonly HourPoint[];
  readonly safety: SafetyExtras;
  readonly dateOf: (atMs: number) => string;
}

/** Danger of a coming day by its forecast. What nobody can know of it yet is no hazard of its own. */
function dangerOf({ conditions, hours }: Ahead['days'][number], ahead: Ahead, table: SafetyTable) {
  const { runningBoatMs, fetchM, belowDam, alerts } = ahead.safety;
  const { level, hazards } = judgeSafety(conditions, table, {
    alerts,
    alertsChecked: true,
    belowDam,
    ...(fetchM === undefined ? {} : { fetchM }),
    ...(runningBoatMs === undefined ? {} : { runningBoatMs }),
    ...(hours === undefined ? {} : { hours: hours.map(safetyHour) }),
  });
  const hazard = hazards.find((found) => found.level === level);
  return { level, hazard: level === 1 || hazard === undefined ? null : hazard };
}

/** The turns of the air from today on: by the hour where hours are known, else by the day. */
function turnsOf(today: Conditions, { days, hours, dateOf }: Ahead): (AirTurn & { readonly date: string })[] {
  const all = [...hours, ...days.flatMap((day) => day.hours ?? [])];
  const byHour = airTurns(all, today.zone, dateOf);
  const timed = byHour.map((turn) => ({
    ...turn,
    date: turn.atMs === null ? turn.byDate : dateOf(turn.atMs),
  }));
  const meanOf = ({ signals }: Conditions): number | undefined => signals.airMean24hC?.value;
  const byDay = airTurnsOfDays(
    [
      { date: today.date, meanC: meanOf(today) },
      ...days.map(({ date, conditions }) => ({ date, meanC: meanOf(conditions) })),
    ],
    today.zone,
  );
  // A slow change has no hour of its own and shows in the days' means alone.
  const apart = (one: string, other: string): number => Math.abs(Date.parse(one) - Date.parse(other));
  // Nor is the way back on the day of a turn one of its own.
  const slow = byDay.filter(
    ({ code, date }) =>
      !timed.some((turn) => apart(turn.date, date) <= (turn.code === code ? 2 * DAY_MS : 0)),
  );
  return [...timed, ...slow];
}

/** What is known of a day whose air falls: the mean of the day before, which the signal holds, does not feel it yet. */
function withFall(known: Known, turns: readonly AirTurn[]): Known {
  const falls = turns.flatMap(({ code, changeC }) => (code === 'airFalls' ? [Math.abs(changeC)] : []));
  const { airDrop24hC } = known.signals;
  if (airDrop24hC === undefined || falls.length === 0) return known;
  return { ...known, signals: { ...known.signals, airDrop24hC: Math.max(airDrop24hC, ...falls) } };
}

const LONGEST_DAYS = 7;
const NEAR_DAYS = 3;
/** From this level no day is chosen. */
const DANGEROUS = 3;

/**
 * Whether the coming days get better or worse than today, from the forecast's own conditions: per day the first place,
 * the danger, the turns of the air with their hour, and which day to choose where one stands out. Null without a
 * forecast.
 */
export function tendencyOf(today: Conditions, ahead: Ahead, rules: Rules): Tendency | null {
  if (ahead.days.length === 0) return null;
  const band = rules.positions.tendencyBand;
  const turns = turnsOf(today, ahead);
  const turnsOn = (on: string): AirTurn[] =>
    turns.filter(({ date }) => date === on).map(({ date: _, ...turn }) => turn);
  const now = withFall(knownOf(today), turnsOn(today.date));
  const coming = [...ahead.days]
    .sort((a, b) => a.lead - b.lead)
    .slice(0, LONGEST_DAYS)
    .map((day) => {
      const then = withFall(knownOf(day.conditions), turnsOn(day.date));
      return {
        date: day.date,
        firstPlace: firstPlaceOf(then, rules, ahead.places),
        ...compare(now, then, rules),
        ...dangerOf(day, ahead, rules.safety),
      };
    });
  const days = coming.map(({ date, firstPlace, level, hazard, ...compared }) => {
    const word = wordOf(compared.gain, band);
    return { date, word, firstPlace, because: reason(compared, word), level, hazard, turns: turnsOn(date) };
  });
  const near = coming.slice(0, NEAR_DAYS);
  const word = wordOf(near.reduce((sum, day) => sum + day.gain, 0) / near.length, band);
  const strongest = [...near].sort((a, b) => Math.abs(b.gain) - Math.abs(a.gain))[0];
  const [best, second] = coming.filter(({ level }) => level < DANGEROUS).sort((a, b) => b.gain - a.gain);
  const stands =
    best !== undefined && best.gain > band && (second === undefined || best.gain > second.gain + 0.1);
  return {
    word,
    because: strongest ? reason(strongest, word) : NO_CHANGE,
    trigger: { code: word, heat: inHeat(now, rules) },
    days,
    turnsToday: turnsOn(today.date),
    ...(stands ? { bestDay: { date: best.date, because: reason(best, 'improving') } } : {}),
  };
}

/** Whether heat weighs on the day: then other things than warmth would change the tendency. */
function inHeat(now: Known, rules: Rules): boolean {
  const membership = phaseMembership(now, rules.phases);
  return rules.positions.tendency.some(
    (rule) => rule.about === 'heat' && pointsOf(rule, now, membership) !== 0,
  );
}
