/** Pages of the kept mornings, each drawn once for all tests of a worker: the same document gives the same bytes. */
import { renderBriefing, type ReaderView, type RenderedBriefing } from '../../src/render/index.ts';
import type { Morning } from './mornings.ts';

const drawn = new Map<string, Promise<RenderedBriefing>>();

/** The full page in the morning's own units, without its pictures, unless another view is asked for. */
export function renderedMorning(
  { name, units, document }: Pick<Morning, 'name' | 'units' | 'document'>,
  view: Partial<ReaderView> = {},
): Promise<RenderedBriefing> {
  const reader: ReaderView = { units, form: 'full', pictures: false, ...view };
  const key = JSON.stringify([name, Object.entries(reader).sort()]);
  const known = drawn.get(key) ?? renderBriefing(document, reader);
  drawn.set(key, known);
  return known;
}
