import { PATHS, type RenderedMail } from '../delivery/index.ts';
import { PERSONAL_MARK } from '../render/index.ts';
import type { Words } from '../words/index.ts';
import { pageHead } from './page.ts';

interface Place {
  readonly lakeId: string;
  /** Permanent address of the briefing. */
  readonly path: string;
  readonly units: 'us' | 'metric';
  /** Addresses of the issues before and after it. */
  readonly before?: string | undefined;
  readonly after?: string | undefined;
  readonly words: Words;
}

/** The whole page in the archive: pictures from here, and in place of a reader's links those that anyone may use. */
export async function asPublicPage(
  page: RenderedMail,
  { lakeId, path, units, before, after, words }: Place,
): Promise<string> {
  const w = words.archive.issue;
  const other = units === 'us' ? 'metric' : 'us';
  const link = (href: string, words: string): string => `<a href="${href}">${words}</a>`;
  const links = [
    ...(before === undefined ? [] : [link(before, w.before)]),
    ...(after === undefined ? [] : [link(after, w.after)]),
    link(`${PATHS.archive}/${encodeURIComponent(lakeId)}`, w.earlier),
    link(`${path}?units=${other}`, w.otherUnits[other]),
    link(`${path}/briefing.json`, w.asData),
    link(PATHS.subscribe, w.byMail),
    link('/what-if', w.whatIf),
  ];
  const foot = `<p class="foot" style="margin:0">${links.join(' · ')}</p>`;
  const marked = page.html.includes(PERSONAL_MARK)
    ? page.html.replace(PERSONAL_MARK, () => foot)
    : page.html.replace(/<\/body>(?![\s\S]*<\/body>)/, () => `${foot}</body>`);
  return page.attachments.reduce(
    (shown, { cid, filename }) =>
      cid === undefined
        ? shown
        : shown.replaceAll(`cid:${cid}`, `${path}/${units}/${encodeURIComponent(filename)}`),
    framed(inTwoSides(marked), await pageHead(words.web)),
  );
}

/** What is told of the day ends where its evidence begins: at what changed, or at the table of conditions. */
const EVIDENCE = /<h2 id="(?:changed|conditions)"/;
const SECTION = '<div  class="page';

/** What to do and what it rests on, beside each other where a wide screen has room; one below the other elsewhere. */
function inTwoSides(page: string): string {
  const start = page.indexOf(SECTION);
  const evidence = page.search(EVIDENCE);
  const split = evidence < 0 ? -1 : page.lastIndexOf(SECTION, evidence);
  const end = page.lastIndexOf('</div>');
  if (start < 0 || split <= start || end < split) return page;
  return (
    `${page.slice(0, start)}<div class="sides"><div>${page.slice(start, split)}</div><div>` +
    `${page.slice(split, end)}</div></div>${page.slice(end)}`
  );
}

/**
 * A mail program brings its own frame; a page of the web needs the head with the ways to the other pages, and the landmark
 * that screen readers jump to.
 */
function framed(page: string, head: string): string {
  const end = page.lastIndexOf('</body>');
  if (end < 0) return page;
  return `${page.slice(0, end)}</main>${page.slice(end)}`
    .replace(/<body[^<>]*>/, (body) => `${body}${head}<main id="content" tabindex="-1">`)
    .replace('</head>', () => '<link rel="stylesheet" href="/briefing.css" /></head>');
}
