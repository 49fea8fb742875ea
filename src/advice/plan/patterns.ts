import type { HourRules } from '../../config/index.ts';
import type { PhaseId } from '../types.ts';
import type { NoPattern, OtherPattern, PlanReason } from './types.ts';

/** A place with its mean points over the open hours. */
export interface Standing {
  readonly place: string;
  readonly points: number;
  readonly pattern: 'back' | 'transition' | 'main';
}

type Found = { readonly place: string } | { readonly none: NoPattern };

const none = (code: NoPattern['code']): Found => ({ none: { code } });

/**
 * A second pattern that holds at the same time: the best place of another kind than the plan's own, near enough.
 *
 * @param standings best first
 * @param planned   places of the plan
 */
export function secondOf(
  standings: readonly Standing[],
  planned: ReadonlySet<string>,
  rules: HourRules,
): Found {
  const lead = standings.find(({ place }) => planned.has(place)) ?? standings[0];
  if (lead === undefined) return none('unknown');
  const patterns = new Set(standings.filter(({ place }) => planned.has(place)).map(({ pattern }) => pattern));
  const near = standings.filter(
    ({ place, points }) => !planned.has(place) && lead.points - points <= rules.settings.secondWithin,
  );
  const other = near.find(({ pattern }) => !patterns.has(pattern)) ?? near[0];
  return other === undefined ? none('noneNear') : { place: other.place };
}

/** Where the larger fish, or more of them, tend to be today: the best place of the season's own that comes near. */
export function sizeOf(
  size: 'big' | 'many',
  standings: readonly Standing[],
  phase: PhaseId,
  rules: HourRules,
): Found {
  const tends = new Set<string>(rules.sizes[size][rules.sizes.seasons[phase]]);
  if (tends.size === 0) return none('noTendency');
  const best = standings[0];
  if (best === undefined) return none('unknown');
  const found = standings.find(({ place }) => tends.has(place));
  if (found === undefined || best.points - found.points > rules.settings.sizeWithin) return none('noneNear');
  return { place: found.place };
}

/** What speaks most for one place against another: its strongest reason that the other has not. */
export function decidesBetween(
  because: readonly PlanReason[],
  other: OtherPattern | null,
): PlanReason | null {
  if (other === null) return null;
  const key = (reason: PlanReason): string => (reason.code === 'rule' ? `rule ${reason.rule}` : reason.code);
  const shared = new Set(other.because.map(key));
  return because.find((reason) => !shared.has(key(reason))) ?? null;
}

interface Stretch {
  readonly place: string;
  readonly fromMs: number;
  readonly toMs: number;
}

/** The longest of the blocks at a place, the earliest of those that are as long; undefined where there is none. */
export function longestAt<T extends Stretch>(blocks: readonly T[], place: string): T | undefined {
  let best: T | undefined;
  for (const block of blocks) {
    if (block.place !== place) continue;
    if (best === undefined || block.toMs - block.fromMs > best.toMs - best.fromMs) best = block;
  }
  return best;
}
