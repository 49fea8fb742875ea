import type { LakeConfig } from '../config/index.ts';
import type { ArchivedBriefing } from '../record/schedule/index.ts';
import { PATHS } from '../delivery/index.ts';
import { languageOf, readArchived, toPage, wordsFor } from '../words/index.ts';
import { cardText, escapeHtml, inUnits } from '../render/index.ts';
import { trimEndOf, type UnitSystem } from '../units/index.ts';

/** XML 1.0 allows no other control characters, not even escaped. */
const xml = (text: string): string =>
  // eslint-disable-next-line no-control-regex -- they are what is looked for
  escapeHtml(text.replace(/[\u0000-\u0008\u000B\u000C\u000E-\u001F\uFFFE\uFFFF]/g, ''));

/** Atom (RFC 4287) feed of a lake's briefings, newest first, each with its front in a few lines. */
export function atomFeed(
  lake: LakeConfig,
  briefings: readonly ArchivedBriefing[],
  baseUrl: string,
  units: UnitSystem,
): string {
  const root = trimEndOf(baseUrl, '/');
  const home = `${root}${PATHS.archive}/${encodeURIComponent(lake.id)}`;
  const iso = (ms: number): string => new Date(ms).toISOString();
  const entries = briefings.map((b) => {
    const kept = readArchived(b.documentJson);
    const words = wordsFor(languageOf(kept));
    const document = inUnits(toPage(kept, words), units);
    const address = `${home}/${b.localDate}/${b.edition}`;
    return `<entry>
<id>${xml(address)}</id>
<title>${xml(document.subject)}</title>
<link rel="alternate" type="text/html" href="${xml(address)}"/>
<updated>${iso(b.issuedMs)}</updated>
<summary>${xml(document.front === undefined ? document.bottomLine : cardText(document, document.front, words))}</summary>
</entry>`;
  });
  return `<?xml version="1.0" encoding="utf-8"?>
<feed xmlns="http://www.w3.org/2005/Atom">
<id>${xml(home)}</id>
<title>${xml(`Thawline: ${lake.name}`)}</title>
<author><name>Thawline</name></author>
<link rel="self" type="application/atom+xml" href="${xml(`${home}/feed.atom`)}"/>
<link rel="alternate" type="text/html" href="${xml(home)}"/>
<updated>${iso(briefings[0]?.issuedMs ?? 0)}</updated>
${entries.join('\n')}
</feed>
`;
}
