/** What is read of a page, and what of it is plain English. */
import { convert } from 'html-to-text';

/** What a reader may type is the form's own language: quantities, points of the compass, on and off. */
const TYPED = /^(\d.*|SW|on)?$/;

const plain = (text: string): string =>
  text.replaceAll('&lt;', '<').replaceAll('&gt;', '>').replaceAll('&quot;', '"').replaceAll('&amp;', '&');

/** What is read of a page, its title and labels included; not what stands there to be typed, or in its own language. */
export function visible(page: string): string {
  const labels = [...page.matchAll(/(aria-label|alt|placeholder|title|data-name)="([^"]*)"/g)].flatMap(
    ([, of, label = '']) => (of === 'placeholder' && TYPED.test(label) ? [] : [plain(label)]),
  );
  const title = plain(/<title>([^<]*)/.exec(page)?.[1] ?? '');
  const script = /data-words="([^"]*)"/.exec(page)?.[1] ?? '{}';
  const said = Object.values(JSON.parse(plain(script)) as Record<string, string>);
  const shown = page
    .slice(Math.max(0, page.indexOf('<body')))
    .replaceAll(/<(code|pre|dt)>[^<]*<\/\1>/g, '')
    .replaceAll(/<(\w+)[^>]* lang="en">.*?<\/\1>/gs, '')
    .replaceAll(/<\/?(label|option|legend|button|summary|text|th|td)\b/g, ' $&');
  const body = convert(shown, {
    wordwrap: false,
    selectors: [
      { selector: 'img', format: 'skip' },
      { selector: 'a', options: { ignoreHref: true } },
      ...['h1', 'h2', 'h3'].map((selector) => ({ selector, options: { uppercase: false } })),
    ],
  });
  return [title, ...labels, ...said, body].join('\n');
}

/** The program's name, the lakes', a language by its own name, addresses; what is written alike in every language. */
const NAMES =
  /Thawline|Pine Hollow Lake|Cedar <Fork> & Co|Cedar|English( \([\w-]+\))?|(ann|name)@example\.org|https?:\S+|\b(CSV|JSON)\b/g;
/** Symbols of units behind a number or beside what is asked for in them, and abbreviations of zones. */
const UNITS =
  /°[CF](\/day)?|(?<=[\d\s,])(ft³\/s|ft\/s|ft\/h|m³\/s|m\/s|m\/h|km\/h|turns\/s|mph|F|FNU|mi|km|ft|in|mm|cm|lb|oz|kg|g|m|s|h)(?![\w-])|\bC[SD]T\b/g;

/** Words of plain English left in a text. */
export const leaks = (text: string): string[] =>
  text
    .replace(NAMES, '')
    .replace(UNITS, '')
    .match(/.{0,16}[A-Za-z]+/g) ?? [];
