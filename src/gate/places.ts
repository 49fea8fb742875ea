import type { DayPlan } from '../advice/plan/index.ts';
import type { PositionAdvice } from '../advice/index.ts';
import { HOUR_MS, localHourAt } from '../units/time/index.ts';
import type { Fault } from './types.ts';

/** Places that are ranked, with only what passes, and what did not. */
export interface GatedPlaces {
  readonly positions: readonly PositionAdvice[];
  readonly faults: readonly Fault[];
}

/**
 * Checks that no ranked place is told for hours that the day closes: its own hours lie outside of them, and "all day" is
 * said of a day without them. What fails says that its hours are closed.
 */
export function gatePlaces(positions: readonly PositionAdvice[], plan: DayPlan): GatedPlaces {
  const faults: Fault[] = [];
  const { zone, fishing } = plan;
  const shut = plan.closed.map(({ fromMs, toMs }) => {
    const from = localHourAt(fromMs, zone);
    return [from, from + (toMs - fromMs) / HOUR_MS] as const;
  });
  if (shut.length === 0 || fishing === null) return { positions, faults };
  const passed = positions.map((position): PositionAdvice => {
    const { hours, bound, place } = position;
    if (bound === 'closed' || bound === 'dark' || bound === 'hot') return position;
    const lies = hours === undefined || shut.some(([from, to]) => hours[0] < to && hours[1] > from);
    if (!lies) return position;
    faults.push({ check: 'clock', of: `ranked ${place}`, found: 'is told for closed hours' });
    const { hours: _, ...rest } = position;
    return { ...rest, periodBecause: { code: 'onlyClosed' }, bound: 'closed' };
  });
  return { positions: passed, faults };
}
