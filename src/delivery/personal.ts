/** Puts one reader's links and the invitation to a friend into a rendered briefing. */
import type { PersonalLinks, RenderedMail } from './types.ts';

/** Where the template leaves room for links. Repeated here, and held equal by a test, because the template's own file loads the whole page compiler. */
export const PERSONAL_MARK = '<!--personal-links-->';

/** Where a reader's other lakes stand: before this one's front, so that which lake to go to is answered first. */
export const OTHERS_MARK = '<!--other-lakes-->';

/** Fronts of a reader's other lakes this morning, each in a few lines, and how many are not out yet. */
export interface OtherLakes {
  readonly cards: readonly string[];
  readonly notOut: number;
}

export const NO_OTHERS: OtherLakes = { cards: [], notOut: 0 };

const OTHERS_HEAD = 'Your other lakes today';

const notOutWords = ({ notOut }: OtherLakes): string =>
  notOut === 0 ? '' : notOut === 1 ? 'One more is not out yet.' : `${notOut} more are not out yet.`;

function othersText(others: OtherLakes): string {
  if (others.cards.length + others.notOut === 0) return '';
  const cards = others.cards.map((card) => card.replace(/^/gm, '  '));
  const last = notOutWords(others);
  return [OTHERS_HEAD.toUpperCase(), ...cards, ...(last === '' ? [] : [`  ${last}`]), ''].join('\n') + '\n';
}

function othersHtml(others: OtherLakes): string {
  if (others.cards.length + others.notOut === 0) return '';
  const card = (text: string): string => {
    const [first = '', ...rest] = text.split('\n');
    return `<p style="margin:0 0 6px"><strong>${escapeHtml(first)}</strong><br>${rest.map(escapeHtml).join('<br>')}</p>`;
  };
  const last = notOutWords(others);
  return (
    `<div style="margin:0 0 10px;padding:0 0 4px;border-bottom:1px solid #C9CFD4;font-size:14px;line-height:1.35">` +
    `<p style="margin:0 0 4px;font-weight:700">${OTHERS_HEAD}</p>` +
    `${others.cards.map(card).join('')}${last === '' ? '' : `<p style="margin:0">${last}</p>`}</div>`
  );
}

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

/** Before the front, for readers who wish to be asked. */
const ASKS = { words: 'Give a reading of the water', why: 'one field, and it makes tomorrow’s figure surer' };

const asksText = ({ reading }: PersonalLinks): string => `${ASKS.words} (${ASKS.why}):\n${reading}\n\n`;
const asksHtml = ({ reading }: PersonalLinks): string =>
  `<p style="margin:0 0 8px;font-size:14px;line-height:1.35"><a href="${escapeHtml(reading)}" style="color:#005A8C">${ASKS.words}</a>: ${ASKS.why}.</p>`;

/** The briefing of one reader. Only links and other lakes differ between readers of the same units and form. */
export function personalise(
  rendered: RenderedMail,
  links: PersonalLinks,
  others: OtherLakes = NO_OTHERS,
  asksReading = false,
): RenderedMail {
  const foot = textFoot(links);
  const top = (asksReading ? asksText(links) : '') + othersText(others);
  return {
    ...rendered,
    html: withHtmlFoot(rendered.html, htmlFoot(links)).replace(
      OTHERS_MARK,
      () => (asksReading ? asksHtml(links) : '') + othersHtml(others),
    ),
    text: top + rendered.text.trimEnd() + '\n' + foot,
    short: rendered.short === '' ? '' : top + rendered.short.trimEnd() + '\n' + foot,
  };
}
