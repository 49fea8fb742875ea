/** Puts one reader's links and the invitation to a friend into a rendered briefing. */
import { wordsFor, type Words } from '../words/index.ts';
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

type MailWords = Words['mail'];

const notOutWords = ({ notOut }: OtherLakes, m: MailWords): string => (notOut === 0 ? '' : m.notOut(notOut));

function othersText(others: OtherLakes, m: MailWords): string {
  if (others.cards.length + others.notOut === 0) return '';
  const cards = others.cards.map((card) => card.replace(/^/gm, '  '));
  const last = notOutWords(others, m);
  return [m.others.toUpperCase(), ...cards, ...(last === '' ? [] : [`  ${last}`]), ''].join('\n') + '\n';
}

function othersHtml(others: OtherLakes, m: MailWords): string {
  if (others.cards.length + others.notOut === 0) return '';
  const card = (text: string): string => {
    const [first = '', ...rest] = text.split('\n');
    return `<p style="margin:0 0 6px"><strong>${escapeHtml(first)}</strong><br>${rest.map(escapeHtml).join('<br>')}</p>`;
  };
  const last = notOutWords(others, m);
  return (
    `<div style="margin:0 0 10px;padding:0 0 4px;border-bottom:1px solid #C9CFD4;font-size:14px;line-height:1.35">` +
    `<p style="margin:0 0 4px;font-weight:700">${m.others}</p>` +
    `${others.cards.map(card).join('')}${last === '' ? '' : `<p style="margin:0">${last}</p>`}</div>`
  );
}

const escapeHtml = (text: string): string => text.replace(/[&<>"']/g, (c) => `&#${String(c.charCodeAt(0))};`);

function textFoot(links: PersonalLinks, { foot }: MailWords): string {
  return [
    '',
    '--',
    foot.outing,
    links.outing,
    foot.subscribe,
    links.subscribe,
    ...(links.whole === undefined ? [foot.archive, links.archive] : [foot.whole, links.whole]),
    foot.settings,
    links.settings,
    foot.leave,
    links.leave,
    '',
  ].join('\n');
}

function htmlFoot(links: PersonalLinks, { links: m }: MailWords): string {
  const link = (url: string, words: string): string =>
    `<a href="${escapeHtml(url)}" style="color:#005A8C">${words}</a>`;
  return (
    `<p style="margin:0">${link(links.outing, m.outing)}${m.outingRest}<br>` +
    `${m.forwarded} ${link(links.subscribe, m.subscribe)}.<br>` +
    `${links.whole === undefined ? link(links.archive, m.archive) : link(links.whole, m.whole)} · ` +
    `${link(links.settings, m.settings)} · ` +
    `${link(links.leave, m.leave)}</p>`
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
const asksText = ({ reading }: PersonalLinks, { asks }: MailWords): string =>
  `${asks.words} (${asks.why}):\n${reading}\n\n`;
const asksHtml = ({ reading }: PersonalLinks, { asks }: MailWords): string =>
  `<p style="margin:0 0 8px;font-size:14px;line-height:1.35"><a href="${escapeHtml(reading)}" style="color:#005A8C">${asks.words}</a>: ${asks.why}.</p>`;

/** The briefing of one reader. Only links and other lakes differ between readers of the same units and form. */
export function personalise(
  rendered: RenderedMail,
  links: PersonalLinks,
  others: OtherLakes = NO_OTHERS,
  asksReading = false,
): RenderedMail {
  const { mail: m } = wordsFor(rendered.language ?? 'en');
  const foot = textFoot(links, m);
  const top = (asksReading ? asksText(links, m) : '') + othersText(others, m);
  return {
    ...rendered,
    html: withHtmlFoot(rendered.html, htmlFoot(links, m)).replace(
      OTHERS_MARK,
      () => (asksReading ? asksHtml(links, m) : '') + othersHtml(others, m),
    ),
    text: top + rendered.text.trimEnd() + '\n' + foot,
    short: rendered.short === '' ? '' : top + rendered.short.trimEnd() + '\n' + foot,
  };
}
