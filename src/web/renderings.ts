/** The whole page of an issue, drawn from its document: what a mail leaves out stands here. Its pictures are those that were mailed. */
import { permalink, unpackRendering, type RenderedMail } from '../delivery/index.ts';
import { type ArchivedBriefing, loadRendering } from '../record/schedule/index.ts';
import { renderBriefing } from '../render/index.ts';
import type { UnitSystem } from '../units/index.ts';
import { readArchived } from '../words/index.ts';
import type { WebDeps } from './deps.ts';

/** Pages kept at hand: one asks for its pictures right after itself. */
const KEPT = 8;

export type WholePages = (b: ArchivedBriefing, units: UnitSystem) => Promise<RenderedMail>;

const picturesNamed = (html: string): string[] =>
  [...html.matchAll(/ src="cid:([^"]*)"/g)].map(([, cid]) => cid ?? '');

export function wholePages(deps: Pick<WebDeps, 'record'>): WholePages {
  const kept = new Map<string, Promise<RenderedMail>>();
  const load = async (briefing: ArchivedBriefing, units: UnitSystem): Promise<RenderedMail> => {
    const document = readArchived(briefing.documentJson);
    const view = { units, form: 'full', detail: 'web' } as const;
    const page = await renderBriefing(document, { ...view, pictures: false });
    const stored = await loadRendering(deps.record, briefing, units, 'full');
    const mailed = stored === undefined ? [] : unpackRendering(stored).attachments;
    // Drawing takes longer than all else, so it is done only for what was forgotten, or had no such picture then.
    const complete = picturesNamed(page.html).every((cid) => mailed.some((picture) => picture.cid === cid));
    return complete ? { ...page, attachments: mailed } : renderBriefing(document, view);
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
