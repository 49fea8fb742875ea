/** The text part: 72 columns, same order as the page, no drawings, fit to be read aloud. */
import type { BriefingPage, Front, Words } from '../words/index.ts';
import type { MergedRow } from './conditions.ts';
import { LINK_WORDS, wordsIn } from './mailLength.ts';
import { unbroken } from './present.ts';
import { caresOf } from './safetySection.ts';
import type { Item, Section } from './items.ts';

const COLUMNS = 72;

/** Longest short form, in words with a reader's links. */
export const SHORT_WORDS = 250;

/** Longest preheader, characters. */
export const PREHEADER_MAX = 100;

/** Breaks a sentence at spaces into lines of at most 72 characters, later lines indented. */
function wrap(text: string, first = '', rest = ' '.repeat(first.length)): string[] {
  const lines: string[] = [];
  let line = first;
  let empty = true;
  for (const word of unbroken(text)
    .split(/[^\S\u00a0]+/)
    .filter(Boolean)) {
    const gap = empty ? '' : ' ';
    if (!empty && line.length + gap.length + word.length > COLUMNS) {
      lines.push(line);
      line = rest + word;
    } else line += gap + word;
    empty = false;
  }
  return empty ? [] : [...lines, line].map((text) => text.replaceAll('\u00a0', ' '));
}

const bullet = (text: string, sign = '-'): string[] => wrap(text, `  ${sign} `, '    ');

/** The first screen as text. */
function frontLines(doc: BriefingPage, front: Front, words: Words): string[] {
  const arm = doc.lake.arm === undefined ? '' : `, ${doc.lake.arm}`;
  return [
    ...wrap(`${doc.lake.name.toUpperCase()}${arm}, ${front.date}`),
    ...wrap(front.danger.toUpperCase()),
    ...front.hazards.flatMap((line) => wrap(line, '  ')),
    '',
    words.front.headings.plan.toUpperCase(),
    ...front.plan.flatMap(({ when, place, what }) => wrap(`${when}: ${place}; ${what}.`, '  ', '    ')),
    ...wrap(front.beIn, '  '),
    '',
    ...wrap(
      front.water
        .map(({ value, what }) => `${value} ${what}`.trim())
        .join('; ')
        .replace(/([^.])$/, '$1.'),
      '  ',
    ),
    ...wrap(front.changed, '  '),
    ...wrap(front.sure, '  '),
  ];
}

/** @param doc page whose sentences are already in the reader's units and clock */
export function textPart(
  doc: BriefingPage,
  front: Front,
  sections: readonly Section[],
  words: Words,
  said: ReadonlyMap<string, string>,
): string {
  const marks = doc.marks.flatMap((mark) => wrap(mark));
  const lines = [...marks, ...(marks.length > 0 ? [''] : []), ...frontLines(doc, front, words)];
  for (const { heading, items } of sections) {
    const body = items.flatMap((item) => itemLines(item, said));
    if (body.length > 0) lines.push('', heading.toUpperCase(), ...body);
  }
  lines.push(...(marks.length > 0 ? ['', ...marks] : []));
  return `${lines.join('\n').trim()}\n`;
}

function itemLines(item: Item, said: ReadonlyMap<string, string>): string[] {
  switch (item.kind) {
    case 'sub':
      return ['', ...wrap(item.text, '  ')];
    case 'p':
    case 'small':
      return wrap(item.text, '  ');
    case 'care':
      return wrap(item.text, `  ${item.label}: `, '    ');
    case 'label':
      return wrap(item.text, `    ${item.label}: `, '    ');
    case 'verbatim':
      // Word for word means line for line as well: only over-long lines are broken.
      return item.text.split('\n').flatMap((line) => wrap(line, '    | ', '    | '));
    case 'list':
      return item.items.flatMap((line, i) => bullet(line, item.ordered ? `${i + 1}.` : '-'));
    case 'source':
      return bullet(item.text);
    case 'rows':
      return item.rows.flatMap(rowLines);
    case 'picture':
      // Only the clock is said in words: the other pictures draw what stands beside them.
      return item.id === 'day' ? wrap(said.get(item.id) ?? '', '  ') : [];
  }
}

function rowLines({ label, now, detail }: MergedRow): string[] {
  const beside = wrap([now, detail].filter(Boolean).join(', '), `  ${label.padEnd(9)}`);
  return beside.length < 2 ? beside : [...wrap(now, `  ${label.padEnd(9)}`), ...wrap(detail, '      ')];
}

/** Blocks that a card of six lines has room for below a line of its own for the danger. */
const CARD_BLOCKS = 3;

/** The lines, at most six, to send to a partner as a message: who, danger, plan, when to be in. */
export function cardText(doc: BriefingPage, front: Front, { page: m }: Words): string {
  const head = `${marked(doc, m)}${doc.lake.name}, ${front.date}`;
  const danger = [front.danger, front.hazards[0] ?? ''].join(' ').trim();
  return [
    ...(front.plan.length > CARD_BLOCKS ? [`${head}. ${danger}`] : [head, danger]),
    ...front.plan.map(({ when, place, what }) => `${when} ${place}; ${what}`),
    [front.beIn, ...front.water.slice(0, 1).map(({ value, what }) => `${value} ${what.replace(/\.$/, '')}.`)]
      .map((part) => part.trim())
      .filter(Boolean)
      .join(' '),
  ]
    .filter(Boolean)
    .join('\n');
}

const marked = (doc: BriefingPage, m: Words['page']): string =>
  doc.marks.length === 0 ? '' : `[${doc.demo ? m.marks.demoShort : m.marks.previewShort}] `;

/** Front and safety, at most 250 words with a reader's links: a danger that has no room for its care keeps its name. */
export function shortForm(doc: BriefingPage, front: Front, words: Words): string {
  const m = words.page;
  const head = [...doc.marks.flatMap((mark) => wrap(mark)), ...frontLines(doc, front, words)].join('\n');
  const { cares, named } = caresOf(doc);
  const rest = wrap(m.deferToShort, '  ');
  const withCares = (count: number): string => {
    const names = [...cares.slice(count).map(({ label }) => label), ...named];
    const safety = [
      m.headings.safety.toUpperCase(),
      ...cares.slice(0, count).flatMap((care) => itemLines(care, new Map())),
      ...(names.length === 0 ? [] : wrap(m.hazard.besides(names), '  ')),
      ...rest,
    ];
    return `${head}\n\n${safety.join('\n')}`;
  };
  for (let count = cares.length; count > 0; count -= 1) {
    const text = withCares(count);
    if (wordsIn(text) <= SHORT_WORDS - LINK_WORDS) return text;
  }
  return withCares(0);
}

/** What a mailbox shows behind the subject: the danger from level 3, else the first block; at most 100 characters. */
export function preheader(front: Front, level: number): string {
  const [first] = front.plan;
  const whole =
    level >= 3 || first === undefined
      ? [front.danger, ...front.hazards].join(' ')
      : `${first.when} ${first.place}; ${first.what}`;
  if (whole.length <= PREHEADER_MAX) return whole;
  const cut = whole.slice(0, PREHEADER_MAX - 1);
  return `${cut.slice(0, cut.lastIndexOf(' '))}…`;
}
