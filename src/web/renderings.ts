/** What was mailed, from the record; drawn again from the document when the rendering was forgotten. */
import { PATHS, unpackRendering, type RenderedMail } from '../delivery/index.ts';
import { type ArchivedBriefing, loadRendering } from '../record/schedule/index.ts';
import { renderBriefing } from '../render/index.ts';
import type { UnitSystem } from '../units/index.ts';
import { readArchived } from '../words/index.ts';
import type { WebDeps } from './deps.ts';

export const permalink = (b: Pick<ArchivedBriefing, 'lakeId' | 'localDate' | 'edition'>): string =>
  `${PATHS.archive}/${encodeURIComponent(b.lakeId)}/${b.localDate}/${b.edition}`;

/** Renderings kept at hand: a page asks for its pictures right after itself. */
const KEPT = 8;

export type Renderings = (b: ArchivedBriefing, units: UnitSystem) => Promise<RenderedMail>;

export function renderings(deps: Pick<WebDeps, 'record'>): Renderings {
  const kept = new Map<string, Promise<RenderedMail>>();
  const load = async (briefing: ArchivedBriefing, units: UnitSystem): Promise<RenderedMail> => {
    const stored = await loadRendering(deps.record, briefing, units, 'full');
    return stored === undefined
      ? renderBriefing(readArchived(briefing.documentJson), { units, form: 'full' })
      : unpackRendering(stored);
  };
  return (briefing, units) => {
    // The time of issue is part of the key: a run that was retried replaces its briefing.
    const key = `${permalink(briefing)} ${briefing.issuedMs} ${units}`;
    const found = kept.get(key) ?? load(briefing, units);
    kept.delete(key);
    kept.set(key, found);
    found.catch(() => kept.delete(key));
    const [oldest] = kept.keys();
    if (kept.size > KEPT && oldest !== undefined) kept.delete(oldest);
    return found;
  };
}
