import type { HourRules, LureBook, PlaceRule } from '../../config/index.ts';
import { POCKET_WATER } from '../../vocabulary/index.ts';
import type { GiveUp, PlanReason } from './types.ts';

/**
 * When to leave a place early: when the first thing that speaks for it turns out not to be so, else without a bite.
 *
 * @param lure the class that is fished there
 * @param leastWindMs wind of the calmest hour there, m/s; leave out when unknown
 */
export function giveUpOf(
  place: PlaceRule,
  because: readonly PlanReason[],
  rules: HourRules['giveUp'],
  lure?: Pick<LureBook['classes'][number], 'wind'>,
  leastWindMs = 0,
): GiveUp {
  const noBite: GiveUp = { code: 'noBite', minutes: place.search.minutes };
  switch (because[0]?.code) {
    case 'pocketWarmer':
      // Only in the pocket's own water a thermometer finds its warmth.
      if (!POCKET_WATER.has(place.id)) return noBite;
      return { code: 'noWarmth', leastDifferenceC: rules.warmthLeastC, minutes: rules.warmthMinutes };
    case 'windOnIt':
      // A lure of calm water fishes the better for it.
      if (lure !== undefined && lure.wind.windy < lure.wind.calm / 2) return noBite;
      if (leastWindMs > rules.windNearMs) return noBite;
      return { code: 'windGone', belowMs: rules.windBelowMs, minutes: rules.windMinutes };
    case 'release':
      return { code: 'currentGone', minutes: rules.currentMinutes };
    default:
      return noBite;
  }
}
