import type { LakeConfig } from '../config/types.ts';
import { PATHS } from '../delivery/index.ts';
import { readArchived, toPage, wordsFor } from '../words/index.ts';
import type { ArchivedBriefing } from '../record/schedule/briefings.ts';
import { escapeHtml } from '../render/escape.ts';
import { expandQuantities, trimEndOf } from '../units/index.ts';

/** XML 1.0 allows no other control characters, not even escaped. */
const xml = (text: string): string =>
  // eslint-disable-next-line no-control-regex
  escapeHtml(text.replace(/[\u0000-\u0008\u000B\u000C\u000E-\u001F\uFFFE\uFFFF]/g, ''));

/** Atom (RFC 4287) feed of a lake's briefings, newest first, with their bottom lines. */
export function atomFeed(lake: LakeConfig, briefings: readonly ArchivedBriefing[], baseUrl: string): string {
  const root = trimEndOf(baseUrl, '/');
  const home = `${root}${PATHS.archive}/${encodeURIComponent(lake.id)}`;
  const iso = (ms: number): string => new Date(ms).toISOString();
  const entries = briefings.map((b) => {
    const document = toPage(readArchived(b.documentJson), wordsFor('en'));
    const address = `${home}/${b.localDate}/${b.edition}`;
    return `<entry>
<id>${xml(address)}</id>
<title>${xml(expandQuantities(document.subject, 'us'))}</title>
<link rel="alternate" type="text/html" href="${xml(address)}"/>
<updated>${iso(b.issuedMs)}</updated>
<summary>${xml(expandQuantities(document.bottomLine, 'us'))}</summary>
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
