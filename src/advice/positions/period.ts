import type { PositionRules } from '../../config/index.ts';
import type { HourPoint } from '../../signals/index.ts';
import type { PlaceId } from '../../vocabulary/index.ts';
import { applyWhen, phaseShare } from '../rules/apply.ts';
import type { Known } from '../rules/known.ts';
import type { PeriodFact, PhaseId, PositionAdvice } from '../types.ts';

type PeriodRule = PositionRules['periods'][number];
type Period = Pick<PositionAdvice, 'period' | 'periodBecause' | 'hours' | 'bound'>;

/** Local hour of an instant, by name of the zone. */
export type LocalHour = (atMs: number) => number;

/** The day a period is looked for in. */
export interface PeriodDay {
  readonly hours: readonly HourPoint[];
  readonly localHour: LocalHour;
  /** Instant of the issue: what lies before it is past. */
  readonly nowMs: number;
  /** Local hours that a hazard takes out of the day, as [first hour, hour after the last]. */
  readonly avoid?: readonly [number, number];
}

/** An hour of the fishing day. */
interface DayHour {
  readonly point: HourPoint;
  readonly hour: number;
  readonly past: boolean;
  /** Still to come, and no hazard forbids it. */
  readonly open: boolean;
}

/** Longest run of hours that pass the test, as [first hour, hour after the last]. */
function longestRun(
  hours: readonly { hour: number; pass: boolean }[],
): readonly [number, number] | undefined {
  let best: readonly [number, number] | undefined;
  let start: number | null = null;
  for (const [index, { hour, pass }] of hours.entries()) {
    if (pass && start === null) start = hour;
    const ends = start !== null && (!pass || index === hours.length - 1);
    if (ends && start !== null) {
      const until = pass ? hour + 1 : hour;
      if (best === undefined || until - start > best[1] - best[0]) best = [start, until];
      start = null;
    }
  }
  return best;
}

type Test = (entry: DayHour) => boolean;

const FEWEST_HOURS = 6;
/** Share of the day's hours from which a part of the day is the day (our choice). */
const NEARLY_ALL = 0.75;
const FULL_DAY_PAST_HOURS = 2;

/** Light enough to fish, also shortly before sunrise and after sunset; empty where the hours are not known. */
function fishingDay({ hours, localHour, nowMs, avoid }: PeriodDay): DayHour[] {
  const day = hours.filter((point) => point.sunAltitudeDeg > -6);
  if (day.length < FEWEST_HOURS) return [];
  return day.map((point) => {
    const hour = localHour(point.atMs);
    const past = point.atMs < nowMs;
    const avoided = avoid !== undefined && hour >= avoid[0] && hour < avoid[1];
    return { point, hour, past, open: !past && !avoided };
  });
}

const runOf = (day: readonly DayHour[], test: Test): readonly [number, number] | undefined =>
  longestRun(day.map((entry) => ({ hour: entry.hour, pass: entry.open && test(entry) })));

function testOf(rule: PeriodRule, day: readonly DayHour[]): Test {
  const open = day.filter((entry) => entry.open);
  const pockets = open.flatMap(({ point }) => point.pocketMinusMainC ?? []);
  const winds = open.flatMap(({ point }) => point.windMs ?? []);
  if (rule.best === 'warmPocket' && pockets.length > 0) {
    const warmest = Math.max(...pockets);
    return ({ point }) => (point.pocketMinusMainC ?? -Infinity) >= warmest - 0.5;
  }
  if (rule.best === 'wind' && winds.length > 0) {
    const windiest = Math.max(...winds);
    return ({ point }) => (point.windMs ?? 0) >= Math.max(2.5, 0.8 * windiest);
  }
  return rule.period === 'earlier'
    ? ({ point, hour }) => point.sunAltitudeDeg < 20 && hour < 12
    : ({ point, hour }) => hour >= 12 && point.sunAltitudeDeg > 0;
}

const WHOLE_DAY: PeriodFact = { code: 'wholeDay' };

/** What is left of the day where no hour of it suits the place's own rule. */
function rest(day: readonly DayHour[], avoid: PeriodDay['avoid'], because: PeriodFact): Period {
  const run = runOf(day, () => true);
  if (run !== undefined) {
    if (avoid === undefined) return { period: 'all_day', periodBecause: because, hours: run, bound: 'rest' };
    const period = run[0] < avoid[0] ? 'earlier' : 'later';
    return { period, periodBecause: { code: 'onlyCool' }, hours: run, bound: 'cool' };
  }
  return day.every(({ past }) => past)
    ? { period: 'all_day', periodBecause: { code: 'noDaylight' }, bound: 'dark' }
    : { period: 'all_day', periodBecause: { code: 'onlyHot' }, bound: 'hot' };
}

/**
 * The part of the day a place is best in. The rule that applies most fully decides, from one half upward;
 * otherwise the whole day. Its hours lie in what is left of the day, outside the hours a hazard forbids; `bound` says
 * so where that decides.
 */
export function periodOf(
  place: PlaceId,
  known: Known,
  membership: Readonly<Record<PhaseId, number>>,
  rules: PositionRules,
  today: PeriodDay,
): Period {
  let best: { share: number; rule: PeriodRule } | null = null;
  for (const rule of rules.periods) {
    if (!rule.places.includes(place)) continue;
    const applied = applyWhen(rule.when, known);
    if (applied === null) continue;
    const share = applied.share * phaseShare(rule.phases, membership);
    if (share >= 0.5 && (best === null || share > best.share)) best = { share, rule };
  }
  const day = fishingDay(today);
  const { avoid } = today;
  if (day.length === 0) {
    if (avoid !== undefined) return { period: 'earlier', periodBecause: { code: 'onlyCool' }, bound: 'cool' };
    return best === null
      ? { period: 'all_day', periodBecause: WHOLE_DAY }
      : { period: best.rule.period, periodBecause: { code: 'rule', rule: best.rule.id } };
  }
  if (best === null) {
    const cut = avoid !== undefined || day.filter(({ past }) => past).length >= FULL_DAY_PAST_HOURS;
    return cut ? rest(day, avoid, WHOLE_DAY) : { period: 'all_day', periodBecause: WHOLE_DAY };
  }
  // Where heat takes the middle of the day, the last hour before dark is no answer: the longer cool part is.
  const hours =
    avoid !== undefined && best.rule.period === 'later' ? undefined : runOf(day, testOf(best.rule, day));
  if (hours === undefined) return rest(day, avoid, { code: 'bestIsPast' });
  const because: PeriodFact = { code: 'rule', rule: best.rule.id };
  // What holds nearly all of the day is no part of it.
  if (avoid === undefined && hours[1] - hours[0] >= NEARLY_ALL * day.length)
    return { period: 'all_day', periodBecause: because };
  return {
    period: best.rule.period,
    periodBecause: because,
    hours,
    ...(avoid === undefined ? {} : { bound: 'cool' as const }),
  };
}
