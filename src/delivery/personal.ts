/** Puts one reader's links into a rendered briefing. */
import type { PersonalLinks, RenderedMail } from './types.ts';

/** Marks a template may carry where a link belongs; they pass unchanged through HTML and URL escaping. */
export const LINK_MARKS = {
  settings: 'LINK-SETTINGS-HERE',
  leave: 'LINK-LEAVE-HERE',
  subscribe: 'LINK-SUBSCRIBE-HERE',
  archive: 'LINK-ARCHIVE-HERE',
} as const satisfies Record<keyof PersonalLinks, string>;

const MARK = new RegExp(Object.values(LINK_MARKS).join('|'), 'g');
const NAME_OF = new Map(Object.entries(LINK_MARKS).map(([name, mark]) => [mark as string, name]));

const escapeHtml = (text: string): string => text.replace(/[&<>"']/g, (c) => `&#${String(c.charCodeAt(0))};`);

function fill(text: string, links: PersonalLinks, escape: (s: string) => string): string {
  return text.replace(MARK, (mark) => escape(links[NAME_OF.get(mark) as keyof PersonalLinks]));
}

function textFoot(links: PersonalLinks): string {
  return [
    '',
    '--',
    'Forwarded to you? Have your own copy in the morning:',
    links.subscribe,
    'Your settings:',
    links.settings,
    'Stop these mails (asks first):',
    links.leave,
    '',
  ].join('\n');
}

function htmlFoot(links: PersonalLinks): string {
  const link = (url: string, words: string): string =>
    `<a href="${escapeHtml(url)}" style="color:#005A8C">${words}</a>`;
  return (
    '<div style="max-width:600px;margin:0 auto;padding:16px;font:14px/1.5 sans-serif;color:#4A5560;background:#ffffff">' +
    `Forwarded to you? ${link(links.subscribe, 'Have your own copy in the morning')}. ` +
    `${link(links.settings, 'Your settings')}. ${link(links.leave, 'Stop these mails')}.</div>`
  );
}

/** A part without the mark for leaving gets the foot appended, so that no briefing goes out without a way to leave. */
function part(text: string, links: PersonalLinks, html: boolean): string {
  if (text === '') return '';
  const filled = fill(text, links, html ? escapeHtml : (s) => s);
  if (text.includes(LINK_MARKS.leave)) return filled;
  if (!html) return filled.trimEnd() + '\n' + textFoot(links);
  const end = filled.lastIndexOf('</body>');
  return end < 0 ? filled + htmlFoot(links) : filled.slice(0, end) + htmlFoot(links) + filled.slice(end);
}

/** The briefing of one reader. Only links differ between readers of the same units and form. */
export function personalise(rendered: RenderedMail, links: PersonalLinks): RenderedMail {
  return {
    ...rendered,
    html: part(rendered.html, links, true),
    text: part(rendered.text, links, false),
    short: part(rendered.short, links, false),
  };
}
