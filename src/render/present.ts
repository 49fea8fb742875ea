/** Turns the document's SI numbers and placeholders into what one reader sees. */
import { ashoreAllDay } from '../briefing/index.ts';
import {
  type BriefingPage,
  clock,
  dateWords,
  dateWordsAt,
  lowerFirst,
  type Messages,
  messagesFor,
  momentWords,
  type PageFigure,
  type PageRow,
} from '../words/index.ts';
import { expandQuantities, formatQuantity, type QuantityKind, type UnitSystem } from '../units/index.ts';
import { clockOf, inClock, type ClockStyle } from './clock.ts';

/** Parts whose text comes from others: never read as placeholders. */
const FOREIGN = new Set(['map', 'official', 'lake', 'sources', 'source', 'series', 'named', 'notices']);

/** Copy of the page whose sentences are written in the reader's units and clock; numbers stay SI. */
export function inUnits(
  page: BriefingPage,
  units: UnitSystem,
  clock: ClockStyle = clockOf(units, page.lake.clock),
): BriefingPage {
  const m = messagesFor(page.language);
  const write = (text: string): string => inClock(expandQuantities(text, units, m.joint), clock, m);
  return { ...(expand(page, write) as BriefingPage), sentenceUnits: units };
}

function expand(value: unknown, write: (text: string) => string): unknown {
  if (typeof value === 'string') return write(value);
  if (Array.isArray(value)) return value.map((item) => expand(item, write));
  if (value === null || typeof value !== 'object') return value;
  return Object.fromEntries(
    Object.entries(value).map(([key, item]) => [key, FOREIGN.has(key) ? item : expand(item, write)]),
  );
}

/** Range of a quantity with one unit: `46 to 50 °F`; one number where both ends print alike. */
export function rangeWords(
  low: number,
  high: number,
  kind: QuantityKind,
  units: UnitSystem,
  m: Messages,
  signed = false,
): string {
  const [from, to] = [formatQuantity(low, kind, units, signed), formatQuantity(high, kind, units, signed)];
  if (from === to) return to;
  const symbol = to.replace(/^.*\d/s, '');
  return m.range(symbol !== '' && from.endsWith(symbol) ? from.slice(0, -symbol.length) : from, to);
}

/** One row of the conditions table as printed. */
export interface RowView {
  readonly label: string;
  readonly now: string;
  readonly interval: string;
  readonly change: string;
  /** The change is a rate a day, not a difference between two days. */
  readonly isTrend: boolean;
  readonly nextHours: number;
  readonly tenDays: string;
  readonly next: string;
  /** Range in which `next` likely stays, or ''. */
  readonly nextLikely: string;
  readonly known: string;
  /** The same without its age, unless it is ageing. */
  readonly source: string;
  /** A sentence, or ''. */
  readonly note: string;
  readonly stale: boolean;
  /** `now` is words, not a number. */
  readonly inWords: boolean;
}

export function rowView(row: PageRow, zone: string, units: UnitSystem, m: Messages): RowView {
  const print = (figure: PageFigure): string =>
    formatQuantity(figure.value, figure.quantity, units, row.signed);
  const { now, last } = row;
  const quantity = now?.quantity ?? last?.quantity;
  return {
    label: row.label,
    now:
      now !== null
        ? (row.words ?? print(now))
        : last !== null
          ? m.lastAt(print(last), momentWords(last.asOfMs, zone, m))
          : m.unknown,
    interval: now === null || row.words !== undefined ? '' : intervalWords(now, row.signed, units, m),
    change:
      row.change24h === null ? '' : formatQuantity(row.change24h.value, row.change24h.quantity, units, true),
    isTrend: row.change24h?.quantity === 'temperatureRate',
    nextHours: row.next48h?.hours ?? 48,
    tenDays:
      row.tenDays === null || quantity === undefined
        ? ''
        : rangeWords(row.tenDays.low, row.tenDays.high, quantity, units, m),
    next:
      row.next48h === null
        ? ''
        : rangeWords(row.next48h.low, row.next48h.high, row.next48h.quantity, units, m, row.signed),
    nextLikely: row.next48h === null ? '' : nextLikelyWords(row.next48h, row.signed, units, m),
    // A guess has no age of its own, and its note says how sure it is.
    known: now === null ? '' : row.words === undefined ? knownWords(now, m) : m.kind[now.kind],
    source:
      now === null
        ? ''
        : now.freshness === 'ageing' && row.words === undefined
          ? knownWords(now, m)
          : m.kind[now.kind],
    note: row.note ?? '',
    stale: now === null,
    inWords: now !== null && row.words !== undefined,
  };
}

/** The range in which what is ahead likely stays; '' where none is stated or it prints as the spread itself. */
function nextLikelyWords(
  next: NonNullable<PageRow['next48h']>,
  signed: boolean,
  units: UnitSystem,
  m: Messages,
): string {
  const { low, high, likelyLow, likelyHigh, quantity } = next;
  if (likelyLow === undefined || likelyHigh === undefined) return '';
  const likely = rangeWords(likelyLow, likelyHigh, quantity, units, m, signed);
  return likely === rangeWords(low, high, quantity, units, m, signed) ? '' : likely;
}

/** The range a figure likely lies in; '' where none is stated or it prints as a single number. */
function intervalWords(figure: PageFigure, signed: boolean, units: UnitSystem, m: Messages): string {
  const { low, high, quantity } = figure;
  if (low === undefined || high === undefined) return '';
  if (formatQuantity(low, quantity, units, signed) === formatQuantity(high, quantity, units, signed))
    return '';
  return m.row.interval(rangeWords(low, high, quantity, units, m, signed));
}

const knownWords = (figure: PageFigure, m: Messages): string =>
  [
    m.kind[figure.kind],
    // A forecast speaks of hours to come; its age is that of its issue, told with the sources. What was computed for
    // this issue has no age of its own: it is as old as the figures it rests on.
    ...(figure.kind === 'forecast' || (figure.kind === 'estimated' && figure.ageMinutes < 1)
      ? []
      : [m.age(figure.ageMinutes)]),
    ...(figure.freshness === 'ageing' ? [m.ageing] : []),
  ].join(', ');

/** Issued, valid to, next issue; each with its date, or only where it is another day's. */
export function mastheadLines(
  doc: BriefingPage,
  zone: string,
  m: Messages,
  whole: boolean,
): readonly (readonly [label: string, value: string])[] {
  const at = (ms: number): string =>
    `${!whole && dateWordsAt(ms, doc.lake.zone, m) === dateWords(doc.date, m) ? clock(ms, doc.lake.zone) : momentWords(ms, doc.lake.zone, m)} ${zone}`;
  return [
    [m.masthead.issued, at(doc.issuedMs)],
    [m.masthead.validTo, at(doc.validUntilMs)],
    [m.masthead.nextIssue, at(doc.nextIssueMs)],
  ];
}

/** Lines of an official statement's frame: who says it, until when. */
export function officialWords(
  official: { readonly issuer: string; readonly endsMs: number | null },
  zone: string,
  m: Messages,
): string {
  const end =
    official.endsMs === null ? m.hazard.noEnd : m.hazard.ends(momentWords(official.endsMs, zone, m));
  return `${m.hazard.official(official.issuer)}. ${end}`;
}

/**
 * The days ahead, like days told once: `Sat 7 Mar to Mon 9 Mar: declining, secondary point first. ...`.
 *
 * @param toldBefore a reason that stands above them
 */
export function daysAhead(doc: BriefingPage, m: Messages, toldBefore: string): readonly string[] {
  // Beside "stay ashore" no day is called better or worse than today, and none is safe yet.
  const ashore = ashoreAllDay(doc);
  const told: { first: string; last: string; words: (date: string) => string; key: string }[] = [];
  const reasons = new Set([toldBefore]);
  for (const { date, word, firstPlace, because } of doc.tendency?.days ?? []) {
    const key = `${word} ${firstPlace} ${because}`;
    const before = told.at(-1);
    if (before?.key === key) before.last = date;
    else {
      // Said once.
      const reason = because === '' || reasons.has(because) ? '' : ` ${because}`;
      reasons.add(because);
      const words = (when: string): string =>
        (ashore
          ? m.tendency.onceSafe(when, lowerFirst(firstPlace))
          : m.tendency.day(when, m.tendency[word], lowerFirst(firstPlace))) + reason;
      told.push({ first: date, last: date, words, key });
    }
  }
  return told.map(({ first, last, words }) =>
    words(first === last ? dateWords(first, m) : m.tendency.span(dateWords(first, m), dateWords(last, m))),
  );
}

/** A line of the operator with its dates. */
export function noticeWords(
  notice: NonNullable<BriefingPage['notices']>[number],
  pageDate: string,
  m: Messages,
): string {
  // A date of another year without it reads as one of the days ahead.
  const told = (date: string): string =>
    date.slice(0, 4) === pageDate.slice(0, 4)
      ? dateWords(date, m)
      : m.notice.ofYear(dateWords(date, m), date.slice(0, 4));
  return m.notice.line(notice.text, told(notice.from), notice.until === null ? null : told(notice.until));
}

/** Credit and licence of a source, as its terms ask; whole: with its name, all of the licence and the time of its last data. */
export const sourceWords = (
  source: BriefingPage['sources'][number],
  zone: string,
  m: Messages,
  whole: boolean,
): string => {
  const { name, attribution, licence, lastMs } = source;
  if (!whole) return m.source.brief(fullStop(attribution), bindingLicence(licence));
  const named = lastMs === null ? name : m.source.last(name, momentWords(lastMs, zone, m));
  return m.source.line(named, fullStop(attribution), licence.replace(/\.$/, ''));
};

/** `CC BY 4.0 (address), for ...` -> `CC BY 4.0`; '' for what is in the public domain, which asks for no such line. */
const bindingLicence = (licence: string): string =>
  /public domain/i.test(licence) ? '' : (licence.split(/[(,]/)[0] ?? '').trim();

const fullStop = (text: string): string => (/[.!?]$/.test(text) ? text : `${text}.`);

/** Keeps a number and its unit on one line. */
export const unbroken = (text: string): string =>
  text.replace(
    /(\d) (?=(?:°[CF]|ft|in|mph|km\/h|mm|m|lb|kg|s|h|min|turns|oz|g|FNU|hPa|inHg|m³|ft³|mg|W)(?![\p{L}]))/gu,
    '$1\u00a0',
  );
