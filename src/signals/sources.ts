/** Who is to be credited, and when each last spoke. Filled with the services' own attribution text by the pipeline. */
import type { RecordView } from '../record/index.ts';
import { at } from '../water/index.ts';
import { columnsOf } from './columns.ts';
import type { SignalReport } from './types.ts';

export type Attribution = {
  readonly name: string;
  readonly attribution: string;
  readonly url: string;
  readonly licence: string;
};

/** @param attributions credit line, address and licence by source; an unknown one is named by its id */
export function sourcesOf(
  view: RecordView,
  attributions: Readonly<Record<string, Attribution>>,
): SignalReport['sources'] {
  const last = new Map<string, number>();
  for (const { source, issuedMs, atMs } of columnsOf(view).all) {
    const spokeMs = issuedMs ?? Math.min(at(atMs, atMs.length - 1), view.asOfMs);
    last.set(source, Math.max(last.get(source) ?? 0, spokeMs));
  }
  return [...last.entries()]
    .sort(([a], [b]) => a.localeCompare(b))
    .map(([id, lastMs]) => ({
      id,
      lastMs,
      ...(attributions[id] ?? { name: id, attribution: id, url: '', licence: '' }),
    }));
}
