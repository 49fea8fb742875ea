import type { HourRules, PlaceRule } from '../../config/index.ts';
import { POCKET_WATER } from '../../vocabulary/index.ts';
import type { GiveUp, PlanReason } from './types.ts';

/** When to leave a place early: when the first thing that speaks for it turns out not to be so, else without a bite. */
export function giveUpOf(
  place: PlaceRule,
  because: readonly PlanReason[],
  rules: HourRules['giveUp'],
): GiveUp {
  const noBite: GiveUp = { code: 'noBite', minutes: place.search.minutes };
  switch (because[0]?.code) {
    case 'pocketWarmer':
      // Only in the pocket's own water a thermometer finds its warmth.
      if (!POCKET_WATER.has(place.id)) return noBite;
      return { code: 'noWarmth', leastDifferenceC: rules.warmthLeastC, minutes: rules.warmthMinutes };
    case 'windOnIt':
      return { code: 'windGone', belowMs: rules.windBelowMs, minutes: rules.windMinutes };
    case 'release':
      return { code: 'currentGone', minutes: rules.currentMinutes };
    default:
      return noBite;
  }
}
