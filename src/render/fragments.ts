/** HTML fragments of the page's parts. Inline styles carry the look; classes only serve dark mode. */
import type { BriefingPage, PageHazard, Messages } from '../words/index.ts';
import { dateWords } from '../words/index.ts';
import type { UnitSystem } from '../units/index.ts';
import { escapeHtml, escapeVerbatim } from './escape.ts';
import { sourceLink } from './links.ts';
import {
  daysAhead,
  mastheadLines,
  newCastLines,
  noticeWords,
  officialWords,
  oldestWords,
  rangeWords,
  sourceWords,
  unbroken,
} from './present.ts';
import { INLINE } from './style.ts';
import { capital } from './text.ts';

export const say = (text: string): string => escapeHtml(unbroken(text));
export const paragraph = (text: string): string =>
  text === '' ? '' : `<p style="${INLINE.p}">${say(text)}</p>`;
export const heading = (text: string): string => `<h2 class="slate" style="${INLINE.h2}">${say(text)}</h2>`;
export const bullets = (items: readonly string[], tag: 'ul' | 'ol' = 'ul'): string =>
  items.length === 0
    ? ''
    : `<${tag} style="${INLINE.list}">${items.map((item) => `<li>${say(item)}</li>`).join('')}</${tag}>`;
export const small = (text: string): string =>
  text === '' ? '' : `<p class="slate" style="${INLINE.small}">${say(text)}</p>`;
const pairs = (caption: string, rows: readonly (readonly [string, string])[]): string =>
  `<table style="${INLINE.table}" aria-label="${escapeHtml(caption)}">${rows
    .map(
      ([label, value]) =>
        `<tr><th class="slate" scope="row" style="${INLINE.pair}">${say(label)}</th>` +
        `<td style="${INLINE.pairValue}">${say(value)}</td></tr>`,
    )
    .join('')}</table>`;

export const marks = (doc: BriefingPage): string =>
  doc.marks.map((mark) => `<p class="warm" style="${INLINE.mark}">${say(mark)}</p>`).join('');

export function masthead(doc: BriefingPage, zone: string, m: Messages): string {
  const arm = doc.lake.arm === undefined ? '' : `${doc.lake.arm}, `;
  return [
    marks(doc),
    `<p class="slate" style="${INLINE.kicker}">${say(m.masthead.line)}</p>`,
    `<h1 style="${INLINE.h1}">${say(doc.lake.name)}</h1>`,
    `<p style="${INLINE.date}">${say(capital(arm + dateWords(doc.date, m)))}</p>`,
    small(
      mastheadLines(doc, zone, m)
        .map(([label, value]) => `${label} ${value}`)
        .join(' · '),
    ),
    small(oldestWords(doc, m)),
  ].join('');
}

export const bottomLinePart = (doc: BriefingPage, m: Messages): string =>
  `${heading(m.headings.bottomLine)}<p style="${INLINE.lead}">${say(doc.bottomLine)}</p>`;

/** What the operator tells, before all else; '' on most days. */
export const noticesPart = (doc: BriefingPage, m: Messages): string =>
  doc.notices === undefined
    ? ''
    : heading(m.notice.heading) + bullets(doc.notices.map((notice) => noticeWords(notice, m)));

export function safetyPart(doc: BriefingPage, m: Messages): string {
  const { safety } = doc;
  return [
    heading(m.headings.safety),
    levelLine(doc, m),
    safety.hazards.length === 0 && safety.level === 1 ? paragraph(m.hazard.none) : '',
    ...safety.hazards.map((hazard) => hazardPart(hazard, doc.lake.zone, m)),
    safety.notChecked.length === 0 ? '' : small(`${m.hazard.notChecked}: ${safety.notChecked.join(' ')}`),
  ].join('');
}

/** Number, word and shape: never colour alone. */
function levelLine(doc: BriefingPage, m: Messages): string {
  const { level, levelWords } = doc.safety;
  const style = level > 1 ? INLINE.level : INLINE.levelQuiet;
  const shape = `<span aria-hidden="true">${m.levelShape[level]}</span> `;
  return `<p class="${level > 1 ? 'warm' : 'ink'}" style="${style}">${shape}${say(m.levelLine(level, levelWords))}</p>`;
}

function hazardPart(hazard: PageHazard, zone: string, m: Messages): string {
  const lines: readonly (readonly [string, string])[] = [
    [m.hazard.what, hazard.what],
    [m.hazard.where, hazard.where],
    [m.hazard.when, hazard.when],
    [m.hazard.doThis, hazard.doThis],
  ];
  const official =
    hazard.official === undefined
      ? ''
      : `<p style="${INLINE.p}">${say(officialWords(hazard.official, zone, m))}</p>` +
        `<blockquote style="${INLINE.quote}">${escapeVerbatim(hazard.official.text)}</blockquote>` +
        (hazard.official.cut === true
          ? `<p style="${INLINE.p}">${say(m.hazard.cut(hazard.official.url))}</p>`
          : '');
  return [
    `<h3 style="${INLINE.h3}">${say(hazard.headline)}</h3>`,
    ...lines
      .filter(([, text]) => text !== '')
      .map(([label, text]) => `<p style="${INLINE.p}"><strong>${say(label)}:</strong> ${say(text)}</p>`),
    official,
  ].join('');
}

export const safetyAgainPart = (doc: BriefingPage, m: Messages): string =>
  [
    heading(m.headings.safetyAgain),
    levelLine(doc, m),
    ...doc.safety.hazards
      .filter(({ level }) => level === doc.safety.level)
      .map(
        ({ headline, doThis }) =>
          `<p style="${INLINE.p}"><strong>${say(headline)}.</strong> ${say(doThis)}</p>`,
      ),
  ].join('');

export const changedPart = (doc: BriefingPage, m: Messages): string =>
  heading(m.headings.changed) +
  paragraph(doc.whatChanged.lead) +
  bullets(doc.whatChanged.items.map(({ sentence, moved }) => `${sentence} ${moved}`));

export function positionsPart(doc: BriefingPage, units: UnitSystem, short: boolean, m: Messages): string {
  const title = heading(short ? m.headings.positionsShort : m.headings.positions);
  if (doc.positions.length === 0) return title + paragraph(m.positions.none);
  const rows = doc.positions.map((position) => {
    const named = position.named === undefined ? '' : ` (${position.named})`;
    const reasons = [
      ...position.because.map((reason) => `<strong>${say(m.positions.because)}:</strong> ${say(reason)}`),
      ...(position.limitedBy === ''
        ? []
        : [`<strong>${say(m.positions.limitedBy)}:</strong> ${say(position.limitedBy)}`]),
    ].join('<br />');
    return (
      `<tr><th scope="row" style="${INLINE.thRow}"><strong>${say(`${position.rank}. ${capital(position.name)}`)}</strong>` +
      `${say(named)}<br /><span class="slate" style="font-size:14px">${say(position.choice)}</span></th>` +
      `<td style="${INLINE.figure}">${say(rangeWords(position.depthM[0], position.depthM[1], 'depth', units, m))}</td>` +
      `<td style="${INLINE.cell}">${say(position.periodWords)}</td></tr>` +
      (short ? '' : `<tr><td colspan="3" style="${INLINE.reason}">${reasons}</td></tr>`)
    );
  });
  const table =
    `<table style="${INLINE.table}" aria-label="${escapeHtml(m.headings.positions)}"><tr>` +
    `<th scope="col" class="slate" style="${INLINE.thColumnFirst}">${say(m.positions.place)}</th>` +
    [m.positions.depth, m.positions.when]
      .map((text) => `<th scope="col" class="slate" style="${INLINE.thColumn}">${say(text)}</th>`)
      .join('') +
    `</tr>${rows.join('')}</table>`;
  if (short) return title + (doc.safety.level === 4 ? paragraph(m.positions.ashore) : '') + table;
  const plan = doc.searchPlan.map(({ step, minutes, moveOn }) =>
    m.positions.planStep(step, m.positions.minutes(minutes), moveOn),
  );
  return [
    title,
    table,
    small(m.positions.rankNote),
    paragraph(doc.close ?? ''),
    paragraph(doc.swap ?? ''),
    plan.length === 0 ? '' : `<h3 style="${INLINE.h3}">${say(m.positions.plan)}</h3>${bullets(plan, 'ol')}`,
    doc.phase === null ? '' : small(`${m.positions.phase(doc.phase.name)} ${doc.phase.because}`),
    ...doc.pockets.map(({ sentence }) => small(sentence)),
  ].join('');
}

export function castPart(doc: BriefingPage, units: UnitSystem, index: number, m: Messages): string {
  const cast = doc.casts[index];
  if (cast === undefined) return '';
  return [
    index === 0 ? heading(m.headings.cast) : '',
    `<h3 style="${INLINE.h3}">${say(m.cast.heading(m.cast.choices[index] ?? '', cast.lureClass))}</h3>`,
    paragraph(cast.because),
    bullets(cast.steps, 'ol'),
    pairs(cast.lureClass, newCastLines(doc, index, units, m)),
    paragraph(cast.misfit ?? ''),
  ].join('');
}

export function tendencyPart(doc: BriefingPage, m: Messages): string {
  const { tendency } = doc;
  if (tendency === null) return heading(m.headings.tendency) + paragraph(m.tendency.none);
  return [
    heading(m.headings.tendency),
    paragraph(`${capital(m.tendency[tendency.word])}. ${tendency.because}`),
    bullets(daysAhead(doc, m)),
    `<p style="${INLINE.p}"><strong>${say(m.tendency.changesIt)}:</strong> ${say(tendency.trigger)}</p>`,
    tendency.bestDay === undefined
      ? ''
      : paragraph(`${m.tendency.best(dateWords(tendency.bestDay.date, m))} ${tendency.bestDay.because}`),
  ].join('');
}

export const confidencePart = (doc: BriefingPage, m: Messages): string =>
  heading(m.headings.confidence) +
  paragraph(`${m.confidenceLine(m.confidence[doc.confidence.word])} ${doc.confidence.because}`) +
  (doc.gaps.length === 0 ? paragraph(m.gaps.none) : paragraph(`${m.gaps.heading}:`) + bullets(doc.gaps));

export const verificationPart = (doc: BriefingPage, m: Messages): string =>
  doc.verification === undefined ? '' : heading(m.headings.verification) + bullets(doc.verification);

export function sourcesPart(doc: BriefingPage, m: Messages): string {
  const items = doc.sources.map(
    (source) => `<li>${sourceLink(sourceWords(source, doc.lake.zone, m), source.url)}</li>`,
  );
  const list = items.length === 0 ? '' : `<ul style="${INLINE.list}">${items.join('')}</ul>`;
  return (
    heading(m.headings.sources) +
    list +
    heading(m.headings.limits) +
    bullets([...doc.limits, doc.safety.deferTo, ...doc.cautions]) +
    marks(doc)
  );
}
