import type { HourRules } from '../../config/rulesHours.ts';
import type { PlaceRule } from '../../config/rulesPlaces.ts';
import type { GiveUp, PlanReason } from './types.ts';

/** Places that lie in the pocket's water: only there a thermometer finds its warmth. */
const IN_POCKET_WATER: ReadonlySet<string> = new Set(['pocket', 'inflow', 'creek_arm', 'ditch']);

/** When to leave a place early: when the first thing that speaks for it turns out not to be so, else without a bite. */
export function giveUpOf(
  place: PlaceRule,
  because: readonly PlanReason[],
  rules: HourRules['giveUp'],
): GiveUp {
  const noBite: GiveUp = { code: 'noBite', minutes: place.search.minutes };
  switch (because[0]?.code) {
    case 'pocketWarmer':
      if (!IN_POCKET_WATER.has(place.id)) return noBite;
      return { code: 'noWarmth', leastDifferenceC: rules.warmthLeastC, minutes: rules.warmthMinutes };
    case 'windOnIt':
      return { code: 'windGone', belowMs: rules.windBelowMs, minutes: rules.windMinutes };
    case 'release':
      return { code: 'currentGone', minutes: rules.currentMinutes };
    default:
      return noBite;
  }
}
