/** The table of figures with what belongs together in one row: a figure stands on the page once. */
import type { BriefingPage, PageRow, Words } from '../words/index.ts';
import { eighthOf, formatQuantity, type UnitSystem } from '../units/index.ts';
import { rangeWords, rowView, unbroken, type RowView } from './present.ts';
import { clockOf, inClock } from './clock.ts';
import { WHOLE, type Extent } from './items.ts';

/** One row as printed. */
export interface MergedRow {
  readonly label: string;
  readonly now: string;
  /** Sentences and clauses below it. */
  readonly detail: string;
  /** Nothing of it is known today. */
  readonly stale: boolean;
}

/** The whole table with its times on the lake's clock. @param doc in the reader's units */
export function conditionRows(doc: BriefingPage, units: UnitSystem, words: Words): MergedRow[] {
  const write = (text: string): string => unbroken(inClock(text, clockOf(units, doc.lake.clock), words.page));
  return mergedRows(doc, units, words, WHOLE).map((row) => ({
    ...row,
    now: write(row.now),
    detail: write(row.detail),
  }));
}

type RowId = PageRow['id'];

/** Rows that tell of one thing; the first gives the label. */
const GROUPS: readonly (readonly [RowId, ...RowId[]])[] = [
  ['waterC'],
  ['pocketC', 'pocketMinusMainC'],
  ['levelM', 'level24hM'],
  ['dischargeM3s'],
  ['rain24Mm', 'rain72Mm'],
  ['airMean3dC', 'airMean7dC'],
  ['windMs'],
  ['cloudPct'],
  ['clarityM'],
];

/** What the day on one clock draws, and the inflow: a reason or a danger that hangs on one of them tells its figure. */
const SIDE_FIGURES: readonly RowId[] = ['pocketC', 'dischargeM3s', 'airMean3dC', 'cloudPct'];

export function mergedRows(
  doc: BriefingPage,
  units: UnitSystem,
  words: Words,
  { detail, without }: Extent,
): MergedRow[] {
  const m = words.page;
  const onFront = (row: PageRow, view: RowView): boolean =>
    detail === 'mail' && isToldOnFront(doc, row, view, words);
  // In a mail the strip tells of the wind, hour by hour, and the ten days of the air before.
  const groups =
    detail === 'mail'
      ? GROUPS.filter(
          ([id]) =>
            doc.status === 'nil' ||
            (id !== 'windMs' && !(without.has('sideFigures') && SIDE_FIGURES.includes(id))),
        ).map((ids) => ids.filter((id) => id !== 'airMean7dC'))
      : GROUPS;
  return groups.flatMap((ids): MergedRow[] => {
    const rows = ids.flatMap((id) => doc.conditions.filter((row) => row.id === id));
    if (rows.length === 0) return [];
    const views = rows.map((row) => ({ row, view: rowView(row, doc.lake.zone, units, m) }));
    const known = views.filter(({ row, view }, i) => !view.stale && (i === 0 || !onFront(row, view)));
    const lead = known[0] ?? views[0];
    if (lead === undefined) return [];
    const label = m.merged[lead.row.id] ?? lead.view.label;
    if (known.length === 0) return [{ label, now: lead.view.now, detail: '', stale: true }];
    const [first, ...others] = known;
    const dry = detail === 'mail' ? dryWords(known, m) : '';
    const now = [
      ...(dry === ''
        ? [
            first === undefined
              ? ''
              : figureWords(first, m, views.length > 1 || first.row.id === 'airMean3dC'),
            ...others.map((other) => figureWords(other, m, true)),
          ]
        : [dry]),
      ...extra(doc, lead.row.id, units, words),
    ].filter(Boolean);
    const clauses = known.flatMap(({ row, view }, i) => clausesOf(row.id, view, i === 0, m, detail));
    const lost = views.filter(({ view }) => view.stale).map(({ view }) => `${view.label} ${view.now}`);
    const notes = known
      .filter(
        ({ row }) =>
          detail === 'web' || row.id === 'rain24Mm' || (row.id === 'waterC' && !without.has('trend')),
      )
      .map(({ row, view }) => (detail === 'mail' ? (row.noteBesideFront ?? view.note) : view.note));
    const below = [[...new Set([...clauses, ...lost])].join('; '), ...notes]
      .filter(Boolean)
      .map((part) => (/[.!?]$/.test(part) ? part : `${part}.`))
      .join(' ');
    return [{ label, now: now.join(', '), detail: below, stale: false }];
  });
}

/** A figure with what it is of, where its row has several. */
function figureWords(
  { row, view }: { readonly row: PageRow; readonly view: RowView },
  m: Words['page'],
  several: boolean,
): string {
  return several ? (m.mergedFigure[row.id]?.(view.now) ?? view.now) : view.now;
}

/** A change that the first screen tells with the same number, or a level that stands. */
function isToldOnFront(doc: BriefingPage, { id }: PageRow, { now }: RowView, { front: w }: Words): boolean {
  const told = doc.front?.water ?? [];
  if (id === 'pocketMinusMainC') return told.some(({ value }) => value === now);
  return id === 'level24hM' && told.some(({ value, what }) => value === now || what === w.water.steady);
}

/** Where it did not rain over the longer span, it did not over the shorter one. */
function dryWords(
  known: readonly { readonly row: PageRow; readonly view: RowView }[],
  m: Words['page'],
): string {
  const sum = known.find(({ row }) => row.id === 'rain72Mm');
  return sum !== undefined && known.length > 1 && Number.parseFloat(sum.view.now) === 0 ? m.dry : '';
}

/** Figures whose age is told in a mail; of the others only how they are known. */
const LEADING: readonly RowId[] = ['waterC', 'levelM'];

function clausesOf(
  id: RowId,
  view: RowView,
  isFirst: boolean,
  m: Words['page'],
  detail: Extent['detail'],
): string[] {
  // In a mail: how it is known, and how surely for the figure that leads its row; a guess has said that it is one.
  if (detail === 'mail')
    return isFirst && !view.inWords
      ? [LEADING.includes(id) ? view.known : view.source, view.interval].filter(Boolean)
      : [];
  const ahead = view.nextLikely === '' ? view.next : m.row.nextLikely(view.next, view.nextLikely);
  // The change of a day stands in the row of the level itself.
  const change = view.change === '' ? '' : (view.isTrend ? m.row.trend : m.row.change)(view.change);
  return [
    isFirst || id === 'level24hM' ? view.known : '',
    view.interval,
    change,
    view.next === '' ? '' : m.row.next(ahead, view.nextHours),
  ].filter(Boolean);
}

/** What today's hours and days add to a row: the air's low and high, gusts, where the wind is from. */
function extra(doc: BriefingPage, id: RowId, units: UnitSystem, words: Words): string[] {
  const m = words.page;
  if (id === 'airMean3dC') {
    const today = doc.series.days.find(({ date }) => date === doc.date);
    if (today?.airMinC === undefined || today.airMaxC === undefined) return [];
    return [m.today(rangeWords(today.airMinC, today.airMaxC, 'temperature', units, m))];
  }
  if (id !== 'windMs') return [];
  const hours = doc.series.hours.filter(({ sunAltitudeDeg }) => sunAltitudeDeg > -6);
  const strongest = hours.reduce<(typeof hours)[number] | undefined>(
    (top, hour) => ((hour.windMs ?? -1) > (top?.windMs ?? -1) ? hour : top),
    undefined,
  );
  const gust = Math.max(...hours.map(({ gustMs }) => gustMs ?? -1));
  const from = strongest?.windDirDeg;
  return [
    ...(from === undefined ? [] : [m.windFrom(words.front.points[eighthOf(from)] ?? '')]),
    ...(gust < 0 ? [] : [words.front.lanes.gusts(formatQuantity(gust, 'windSpeed', units))]),
  ];
}
