import { PATHS, type RenderedMail } from '../delivery/index.ts';
import { PERSONAL_MARK } from '../render/index.ts';
import type { Words } from '../words/index.ts';

interface Place {
  readonly lakeId: string;
  /** Permanent address of the briefing. */
  readonly path: string;
  readonly units: 'us' | 'metric';
  /** Addresses of the issues before and after it. */
  readonly before?: string | undefined;
  readonly after?: string | undefined;
  readonly words: Words['archive']['issue'];
}

/** The whole page in the archive: pictures from here, and in place of a reader's links those that anyone may use. */
export function asPublicPage(
  page: RenderedMail,
  { lakeId, path, units, before, after, words: w }: Place,
): string {
  const other = units === 'us' ? 'metric' : 'us';
  const link = (href: string, words: string): string =>
    `<a href="${href}" style="color:#005A8C">${words}</a>`;
  const links = [
    ...(before === undefined ? [] : [link(before, w.before)]),
    ...(after === undefined ? [] : [link(after, w.after)]),
    link(`${PATHS.archive}/${encodeURIComponent(lakeId)}`, w.earlier),
    link(`${path}?units=${other}`, w.otherUnits[other]),
    link(`${path}/briefing.json`, w.asData),
    link(PATHS.subscribe, w.byMail),
    link('/what-if', w.whatIf),
  ];
  const foot = `<p style="margin:0">${links.join(' · ')}</p>`;
  const marked = page.html.includes(PERSONAL_MARK)
    ? page.html.replace(PERSONAL_MARK, () => foot)
    : page.html.replace(/<\/body>(?![\s\S]*<\/body>)/, () => `${foot}</body>`);
  return page.attachments.reduce(
    (shown, { cid, filename }) =>
      cid === undefined
        ? shown
        : shown.replaceAll(`cid:${cid}`, `${path}/${units}/${encodeURIComponent(filename)}`),
    withMain(marked),
  );
}

/** A mail program brings its own frame; a page of the web needs the landmark that screen readers jump to. */
function withMain(page: string): string {
  const end = page.lastIndexOf('</body>');
  if (end < 0) return page;
  return `${page.slice(0, end)}</main>${page.slice(end)}`.replace(/<body[^<>]*>/, (body) => `${body}<main>`);
}
