/** A reader's own outings as they may take them along: a CSV that `outing import` reads again, and JSON. */
import type { Outing } from '../record/index.ts';
import { guarded } from './formulas.ts';
import { DECIMALS } from './limits.ts';

const COLUMNS = [
  'lake',
  'date',
  'from',
  'to',
  'hours',
  'places',
  'lures',
  'bites',
  'fish',
  'biggest_cm',
  'biggest_kg',
  'water_c',
  'depth_m',
  'clarity_m',
  'plan',
  'shared',
  'note',
] as const;

/** Columns that a file of outings may have; `outing import` refuses others. */
export const OUTING_COLUMNS: readonly string[] = [...COLUMNS, 'water_f', 'biggest_in', 'biggest_lb'];

function cell(value: string | number): string {
  const text = typeof value === 'string' ? guarded(value) : String(value);
  return /[",;\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

const clockText = (minute: number): string =>
  `${String(Math.floor(minute / 60)).padStart(2, '0')}:${String(minute % 60).padStart(2, '0')}`;

/** Without the tail that a change of units leaves. */
const rounded = (value: number | undefined, digits: number): string | number =>
  value === undefined ? '' : Number(value.toFixed(digits));

/** RFC 4180, SI units, header first. */
export function outingsCsv(outings: readonly Outing[]): string {
  const lines = outings.map((outing) =>
    [
      outing.lake,
      outing.date,
      outing.clock === undefined ? '' : clockText(outing.clock.fromMinute),
      outing.clock === undefined ? '' : clockText(outing.clock.toMinute),
      outing.hours,
      outing.places.map(({ kind, name }) => name ?? kind).join(' | '),
      outing.lures.join(' | '),
      outing.bites ?? '',
      outing.fish,
      rounded(outing.biggestM === undefined ? undefined : outing.biggestM * 100, DECIMALS.m - 2),
      outing.biggestKg ?? '',
      outing.waterC ?? '',
      outing.waterDepthM ?? '',
      outing.clarityM ?? '',
      outing.plan ?? '',
      outing.shared ? 'yes' : 'no',
      outing.note,
    ]
      .map(cell)
      .join(','),
  );
  return [COLUMNS.join(','), ...lines, ''].join('\r\n');
}

/** Everything that is kept of them but the reader's internal id, SI. */
export function outingsJson(outings: readonly Outing[]): string {
  const own = outings.map(({ readerId: _, readingId: __, ...rest }) => rest);
  return `${JSON.stringify({ schema: 'thawline-outings/1', outings: own }, null, 2)}\n`;
}
