/** The conditions table of the page: four columns that fit a phone, details and the ten days below each figure. */
import type { BriefingPage, PageRow, Messages } from '../words/index.ts';
import type { UnitSystem } from '../units/index.ts';
import { escapeHtml } from './escape.ts';
import { heading, say, small } from './fragments.ts';
import { rowView } from './present.ts';
import { COLOUR, INLINE } from './style.ts';

const BAR_HEIGHT_PX = 16;

export function conditionsPart(doc: BriefingPage, units: UnitSystem, m: Messages): string {
  const head = [m.columns.now, m.columns.change, m.columns.next]
    .map((text) => `<th scope="col" class="slate" style="${INLINE.thColumn}">${say(text)}</th>`)
    .join('');
  return (
    heading(m.headings.conditions) +
    `<table style="${INLINE.table}" aria-label="${escapeHtml(m.headings.conditions)}">` +
    `<tr><th scope="col" class="slate" style="${INLINE.thColumnFirst}">${say(m.columns.what)}</th>${head}</tr>` +
    doc.conditions.map((row) => tableRow(row, doc.lake.zone, units, m)).join('') +
    '</table>' +
    (doc.readingThanks === undefined ? '' : small(doc.readingThanks))
  );
}

function tableRow(row: PageRow, zone: string, units: UnitSystem, m: Messages): string {
  const view = rowView(row, zone, units, m);
  const label = `<th scope="row" style="${INLINE.thRow}">${say(view.label)}</th>`;
  if (view.stale) {
    return (
      `<tr>${label}<td colspan="3" class="slate" style="${INLINE.cell};color:${COLOUR.slate}">${say(view.now)}</td></tr>` +
      `<tr><td colspan="4" style="${INLINE.detail}"></td></tr>`
    );
  }
  const next = view.next !== '' && view.nextHours !== 48 ? m.row.next(view.next, view.nextHours) : view.next;
  const details = [
    view.known,
    view.interval,
    view.tenDays === '' ? '' : m.row.tenDays(view.tenDays),
    // The column of what is ahead is too narrow on a phone for a second range.
    view.nextLikely === '' ? '' : m.row.next(m.row.interval(view.nextLikely), view.nextHours),
  ].filter(Boolean);
  const figures = view.inWords
    ? `<td colspan="3" style="${INLINE.cell};font-weight:bold">${say(view.now)}</td>`
    : `<td style="${INLINE.figureStrong}">${say(view.now)}</td>` +
      `<td style="${INLINE.figure}">${say(view.change)}</td><td style="${INLINE.cell}">${say(next)}</td>`;
  return (
    `<tr>${label}${figures}</tr>` +
    `<tr><td colspan="3" class="slate" style="${INLINE.detail}">${say([details.join('; '), view.note].filter(Boolean).join('. '))}</td>` +
    `<td style="${INLINE.detail}">${tenDayBars(row)}</td></tr>`
  );
}

/** Ten bars, drawn from table cells so that they show with images off; the numbers stand beside them. */
function tenDayBars(row: PageRow): string {
  const { tenDays } = row;
  if (tenDays === null) return '';
  const floor = row.now?.quantity === 'rain' ? 0 : tenDays.low;
  const span = tenDays.high - floor || 1;
  const cells = tenDays.values.map((value) => {
    const height = value === null ? 0 : 2 + Math.round(((value - floor) / span) * (BAR_HEIGHT_PX - 2));
    return (
      '<td style="padding:0 1px 0 0;vertical-align:bottom">' +
      (height === 0
        ? ''
        : `<div class="bar" style="width:5px;height:${height}px;background-color:${COLOUR.blue};font-size:0"></div>`) +
      '</td>'
    );
  });
  return `<table role="presentation" aria-hidden="true" align="right" style="border-collapse:collapse"><tr style="height:${BAR_HEIGHT_PX}px">${cells.join('')}</tr></table>`;
}
