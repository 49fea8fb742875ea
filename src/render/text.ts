/** The text part: 72 columns, same order as the page, no drawings, fit to be read aloud. */
import type { BriefingPage, PageHazard, Messages } from '../words/index.ts';
import { dateWords, zoneWords } from '../words/index.ts';
import type { UnitSystem } from '../units/index.ts';
import {
  daysAhead,
  mastheadLines,
  newCastLines,
  noticeWords,
  officialWords,
  oldestWords,
  rangeWords,
  rowView,
  sourceWords,
  unbroken,
} from './present.ts';

export const COLUMNS = 72;

/** Breaks a sentence at spaces into lines of at most 72 characters, later lines indented. */
export function wrap(text: string, first = '', rest = ' '.repeat(first.length)): string[] {
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

const bullet = (text: string): string[] => wrap(text, '  - ', '    ');

/** @param doc document whose sentences are already in the reader's units */
export function textPart(doc: BriefingPage, units: UnitSystem, m: Messages): string {
  const lines: string[] = [];
  const section = (heading: string, body: readonly string[]): void => {
    if (body.length > 0) lines.push('', heading.toUpperCase(), ...body);
  };
  const zone = zoneWords(doc.issuedMs, doc.lake.zone);
  const grave = doc.safety.level >= 3;

  lines.push(...doc.marks.flatMap((mark) => wrap(mark)), ...(doc.marks.length > 0 ? [''] : []));
  const name = [doc.lake.name, doc.lake.arm].filter(Boolean).join(', ');
  lines.push(...wrap(`${name.toUpperCase()}, ${dateWords(doc.date, m)}`));
  for (const [label, value] of mastheadLines(doc, zone, m)) lines.push(`${label}: ${value}`);
  lines.push(...wrap(oldestWords(doc, m)));

  section(
    m.notice.heading,
    (doc.notices ?? []).flatMap((notice) => bullet(noticeWords(notice, m))),
  );
  section(m.headings.bottomLine, wrap(doc.bottomLine, '  '));
  section(m.headings.safety, safetyLines(doc, m));
  section(m.headings.changed, [
    ...wrap(doc.whatChanged.lead, '  '),
    ...doc.whatChanged.items.flatMap(({ sentence, moved }) => bullet(`${sentence} ${moved}`)),
  ]);
  section(m.headings.conditions, [
    ...conditionLines(doc, units, m),
    ...(doc.readingThanks === undefined ? [] : wrap(doc.readingThanks, '  ')),
  ]);
  if (grave) section(m.headings.safetyAgain, hazardAgain(doc, m));
  section(grave ? m.headings.positionsShort : m.headings.positions, positionLines(doc, units, grave, m));
  section(m.headings.cast, castPart(doc, units, m));
  section(m.headings.tendency, tendencyLines(doc, m));
  section(m.headings.confidence, [
    ...wrap(`${m.confidenceLine(m.confidence[doc.confidence.word])} ${doc.confidence.because}`, '  '),
    ...(doc.gaps.length === 0
      ? wrap(m.gaps.none, '  ')
      : [`  ${m.gaps.heading}:`, ...doc.gaps.flatMap((gap) => bullet(gap))]),
  ]);
  section(
    m.headings.verification,
    (doc.verification ?? []).flatMap((line) => bullet(line)),
  );
  section(
    m.headings.sources,
    doc.sources.flatMap((source) => bullet(sourceWords(source, doc.lake.zone, m))),
  );
  section(
    m.headings.limits,
    [...doc.limits, doc.safety.deferTo, ...doc.cautions].flatMap((line) => bullet(line)),
  );
  // The two things to remember stand first and last.
  if (!grave) section(m.headings.safetyAgain, hazardAgain(doc, m));
  section(m.headings.bottomLine, wrap(doc.bottomLine, '  '));
  lines.push(...(doc.marks.length > 0 ? ['', ...doc.marks.flatMap((mark) => wrap(mark))] : []));
  return `${lines.join('\n').trim()}\n`;
}

function safetyLines(doc: BriefingPage, m: Messages): string[] {
  const { safety } = doc;
  return [
    ...wrap(`${m.levelLine(safety.level, safety.levelWords)}.`, '  '),
    ...(safety.hazards.length === 0 && safety.level === 1 ? wrap(m.hazard.none, '  ') : []),
    ...safety.hazards.flatMap((hazard) => ['', ...hazardLines(hazard, doc.lake.zone, m)]),
    ...(safety.notChecked.length === 0 ? [] : ['', `  ${m.hazard.notChecked}:`]),
    ...safety.notChecked.flatMap((line) => bullet(line)),
  ];
}

function hazardLines(hazard: PageHazard, zone: string, m: Messages): string[] {
  const parts: readonly (readonly [string, string])[] = [
    [m.hazard.what, hazard.what],
    [m.hazard.where, hazard.where],
    [m.hazard.when, hazard.when],
    [m.hazard.doThis, hazard.doThis],
  ];
  return [
    ...wrap(hazard.headline, '  '),
    ...parts
      .filter(([, text]) => text !== '')
      .flatMap(([label, text]) => wrap(text, `    ${label}: `, '    ')),
    ...(hazard.official === undefined
      ? []
      : [
          ...wrap(officialWords(hazard.official, zone, m), '    '),
          // Word for word means line for line as well: only over-long lines are broken.
          ...hazard.official.text.split('\n').flatMap((line) => wrap(line, '    | ', '    | ')),
          ...(hazard.official.cut === true ? wrap(m.hazard.cut(hazard.official.url), '    ') : []),
        ]),
  ];
}

const hazardAgain = (doc: BriefingPage, m: Messages): string[] => [
  ...wrap(`${m.levelLine(doc.safety.level, doc.safety.levelWords)}.`, '  '),
  ...doc.safety.hazards
    .filter(({ level }) => level === doc.safety.level)
    .flatMap(({ headline, doThis }) => wrap(`${headline}. ${doThis}`.replace(/([.!?])\./, '$1'), '  ')),
];

const LABEL = 26;

function conditionLines(doc: BriefingPage, units: UnitSystem, m: Messages): string[] {
  return doc.conditions.flatMap((row) => {
    const view = rowView(row, doc.lake.zone, units, m);
    const ahead = view.nextLikely === '' ? view.next : m.row.nextLikely(view.next, view.nextLikely);
    const first = `  ${view.label.padEnd(LABEL)}`;
    const details = [
      view.known,
      view.interval,
      view.change === '' ? '' : (view.isTrend ? m.row.trend : m.row.change)(view.change),
      view.tenDays === '' ? '' : m.row.tenDays(view.tenDays),
      view.next === '' ? '' : m.row.next(ahead, view.nextHours),
    ].filter(Boolean);
    return [
      ...(view.stale || view.inWords ? wrap(view.now, first) : [first + view.now.padStart(11)]),
      ...(details.length === 0 ? [] : wrap(`${details.join('; ')}.`, '      ')),
      ...wrap(view.note, '      '),
    ];
  });
}

function positionLines(doc: BriefingPage, units: UnitSystem, short: boolean, m: Messages): string[] {
  if (doc.positions.length === 0) return wrap(m.positions.none, '  ');
  const rows = doc.positions.flatMap((position) => {
    const depth = rangeWords(position.depthM[0], position.depthM[1], 'depth', units, m);
    const named = position.named === undefined ? '' : ` (${position.named})`;
    const head = wrap(
      `${capital(position.name)}${named}, ${depth}, ${position.periodWords}; ${position.choice}.`,
      `  ${position.rank}. `,
    );
    if (short) return head;
    return [
      ...head,
      ...position.because.flatMap((reason) => wrap(reason, `     ${m.positions.because}: `, '       ')),
      ...(position.limitedBy === ''
        ? []
        : wrap(position.limitedBy, `     ${m.positions.limitedBy}: `, '       ')),
    ];
  });
  if (short) return doc.safety.level === 4 ? [...wrap(m.positions.ashore, '  '), ...rows] : rows;
  return [
    ...rows,
    ...wrap(m.positions.rankNote, '  '),
    ...(doc.close === null ? [] : wrap(doc.close, '  ')),
    ...(doc.swap === null ? [] : wrap(doc.swap, '  ')),
    ...(doc.searchPlan.length === 0 ? [] : [`  ${m.positions.plan}:`]),
    ...doc.searchPlan.flatMap(({ step, minutes, moveOn }) =>
      bullet(m.positions.planStep(step, m.positions.minutes(minutes), moveOn)),
    ),
    ...(doc.phase === null ? [] : wrap(`${m.positions.phase(doc.phase.name)} ${doc.phase.because}`, '  ')),
    ...doc.pockets.flatMap(({ sentence }) => wrap(sentence, '  ')),
  ];
}

function castPart(doc: BriefingPage, units: UnitSystem, m: Messages): string[] {
  if (doc.safety.level === 4) return wrap(m.cast.omitted, '  ');
  return doc.casts.flatMap((cast, i) => [
    ...(i === 0 ? [] : ['']),
    ...wrap(`${m.cast.heading(m.cast.choices[i] ?? '', cast.lureClass)}.`, '  '),
    ...wrap(cast.because, '    '),
    ...cast.steps.flatMap((step) => wrap(step, '    - ', '      ')),
    ...newCastLines(doc, i, units, m).flatMap(([label, value]) => wrap(value, `    ${label}: `, '      ')),
    ...(cast.misfit === undefined ? [] : wrap(cast.misfit, '    ')),
  ]);
}

function tendencyLines(doc: BriefingPage, m: Messages): string[] {
  const { tendency } = doc;
  if (tendency === null) return wrap(m.tendency.none, '  ');
  return [
    ...wrap(`${capital(m.tendency[tendency.word])}. ${tendency.because}`, '  '),
    ...daysAhead(doc, m).flatMap((line) => bullet(line)),
    ...wrap(tendency.trigger, `  ${m.tendency.changesIt}: `, '  '),
    ...(tendency.bestDay === undefined
      ? []
      : wrap(`${m.tendency.best(dateWords(tendency.bestDay.date, m))} ${tendency.bestDay.because}`, '  ')),
  ];
}

export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** At most 300 characters, for forwarding by text message. */
export function shortForm(doc: BriefingPage, m: Messages): string {
  const mark = [doc.demo ? m.marks.demoShort : '', doc.preview ? m.marks.previewShort : ''].filter(Boolean);
  const head = mark.length === 0 ? '' : `${mark.join(' ')} `;
  const level = capital(m.levelLine(doc.safety.level, doc.safety.levelWords));
  const line = head + m.short.line(doc.lake.name.slice(0, 60), dateWords(doc.date, m), level, doc.bottomLine);
  const hazard = doc.safety.hazards[0];
  const valid = m.short.valid(mastheadLines(doc, zoneWords(doc.issuedMs, doc.lake.zone), m)[1]?.[1] ?? '');
  const candidates = [
    ...(hazard === undefined || doc.bottomLine.includes(hazard.headline)
      ? []
      : [`${line} ${hazard.headline}. ${valid}`]),
    `${line} ${valid}`,
    line,
  ];
  return candidates.find((text) => text.length <= SHORT_MAX) ?? line;
}

export const SHORT_MAX = 300;
