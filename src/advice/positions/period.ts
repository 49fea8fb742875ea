import type { PositionRules } from '../../config/rulesPlaces.ts';
import type { PlaceId } from '../../config/rulesWords.ts';
import type { HourPoint } from '../../signals/types.ts';
import { applyWhen, phaseShare } from '../rules/apply.ts';
import type { Known } from '../rules/known.ts';
import type { PhaseId, PositionAdvice } from '../types.ts';

type Period = Pick<PositionAdvice, 'period' | 'periodBecause' | 'hours'>;

/** Local hour of an instant, by name of the zone. */
export type LocalHour = (atMs: number) => number;

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

function hoursOf(
  rule: string,
  period: 'earlier' | 'later',
  hours: readonly HourPoint[],
  localHour: LocalHour,
): readonly [number, number] | undefined {
  const day = hours.filter((point) => point.sunAltitudeDeg > -6);
  if (day.length < 6) return undefined;
  const pockets = day.flatMap((point) => point.pocketMinusMainC ?? []);
  const winds = day.flatMap((point) => point.windMs ?? []);
  const warmest = Math.max(...pockets);
  const windiest = Math.max(...winds);
  const test = (point: HourPoint): boolean => {
    if (rule.includes('pocket') && pockets.length > 0) {
      return point.pocketMinusMainC !== undefined && point.pocketMinusMainC >= warmest - 0.5;
    }
    if (rule.includes('wind') && winds.length > 0) {
      return point.windMs !== undefined && point.windMs >= Math.max(2.5, 0.8 * windiest);
    }
    if (period === 'earlier') return point.sunAltitudeDeg < 20 && localHour(point.atMs) < 12;
    return localHour(point.atMs) >= 12 && point.sunAltitudeDeg > 0;
  };
  return longestRun(day.map((point) => ({ hour: localHour(point.atMs), pass: test(point) })));
}

/**
 * The part of the day a place is best in. The rule that applies most fully decides, from one half upward;
 * otherwise the whole day.
 */
export function periodOf(
  place: PlaceId,
  known: Known,
  membership: Readonly<Record<PhaseId, number>>,
  rules: PositionRules,
  hours: readonly HourPoint[],
  localHour: LocalHour,
): Period {
  let best: { share: number; rule: PositionRules['periods'][number] } | null = null;
  for (const rule of rules.periods) {
    if (!rule.places.includes(place)) continue;
    const applied = applyWhen(rule.when, known);
    if (applied === null) continue;
    const share = applied.share * phaseShare(rule.phases, membership);
    if (share >= 0.5 && (best === null || share > best.share)) best = { share, rule };
  }
  if (best === null) {
    return { period: 'all_day', periodBecause: 'nothing known today sets one part of the day apart' };
  }
  const range = hoursOf(best.rule.id, best.rule.period, hours, localHour);
  return {
    period: best.rule.period,
    periodBecause: best.rule.sentence,
    ...(range === undefined ? {} : { hours: range }),
  };
}
