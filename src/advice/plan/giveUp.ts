import type { HourRules } from '../../config/rulesHours.ts';
import type { PlaceRule } from '../../config/rulesPlaces.ts';
import type { GiveUp, PlanReason } from './types.ts';

/** When to leave a place early: when the first thing that speaks for it turns out not to be so, else without a bite. */
export function giveUpOf(
  place: PlaceRule,
  because: readonly PlanReason[],
  rules: HourRules['giveUp'],
): GiveUp {
  switch (because[0]?.code) {
    case 'pocketWarmer':
      return { code: 'noWarmth', leastDifferenceC: rules.warmthLeastC, minutes: rules.warmthMinutes };
    case 'windOnIt':
      return { code: 'windGone', belowMs: rules.windBelowMs, minutes: rules.windMinutes };
    case 'release':
      return { code: 'currentGone', minutes: rules.currentMinutes };
    default:
      return { code: 'noBite', minutes: place.search.minutes };
  }
}
