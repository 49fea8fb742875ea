/** Puts one reader's links and the invitation to a friend into a rendered briefing. */
import type { PersonalLinks, RenderedMail } from './types.ts';

/** Where the template leaves room for links. Repeated here, and held equal by a test, because the template's own file loads the whole page compiler. */
export const PERSONAL_MARK = '<!--personal-links-->';

const escapeHtml = (text: string): string => text.replace(/[&<>"']/g, (c) => `&#${String(c.charCodeAt(0))};`);

function textFoot(links: PersonalLinks): string {
  return [
    '',
    '--',
    'How was it? One minute, and a day without fish counts most:',
    links.outing,
    'Forwarded to you? Have your own copy in the morning:',
    links.subscribe,
    'Earlier briefings:',
    links.archive,
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
    `<p style="margin:0">${link(links.outing, 'Tell how it was')}: one minute, and a day without fish counts most.<br>` +
    `Forwarded to you? ${link(links.subscribe, 'Have your own copy in the morning')}.<br>` +
    `${link(links.archive, 'Earlier briefings')} · ${link(links.settings, 'Your settings')} · ` +
    `${link(links.leave, 'Stop these mails')}</p>`
  );
}

/** At the mark the template left, else at the end: no briefing goes out without a way to leave. */
function withHtmlFoot(html: string, foot: string): string {
  if (html === '') return '';
  if (html.includes(PERSONAL_MARK)) return html.replace(PERSONAL_MARK, () => foot);
  const end = html.lastIndexOf('</body>');
  return end < 0 ? html + foot : html.slice(0, end) + foot + html.slice(end);
}

/** The briefing of one reader. Only links differ between readers of the same units and form. */
export function personalise(rendered: RenderedMail, links: PersonalLinks): RenderedMail {
  const foot = textFoot(links);
  return {
    ...rendered,
    html: withHtmlFoot(rendered.html, htmlFoot(links)),
    text: rendered.text.trimEnd() + '\n' + foot,
    short: rendered.short === '' ? '' : rendered.short.trimEnd() + '\n' + foot,
  };
}
