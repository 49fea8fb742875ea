/** A season as CSV (RFC 4180, SI): a line a day. */
import type { DayDifference, SeasonDay } from '../schedule/replay/index.ts';

const cell = (value: string | number | null): string => {
  const text = value === null ? '' : String(value);
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
};
const line = (cells: readonly (string | number | null)[]): string => cells.map(cell).join(',');
const round = (value: number | null, digits: number): number | null =>
  value === null ? null : Number(value.toFixed(digits));

const HEADER =
  'date,status,forecast,water_c,water_low_c,water_high_c,level_m,danger,hazards,phase,first_place,second_place,hours,lure';

export function seasonCsv(days: readonly SeasonDay[]): string {
  const lines = days.map((day) =>
    line([
      day.date,
      day.status,
      day.forecast,
      round(day.waterC, 2),
      round(day.waterLowC, 2),
      round(day.waterHighC, 2),
      round(day.levelM, 3),
      day.danger,
      day.hazards.join(' '),
      day.phase,
      day.first,
      day.second,
      day.hours,
      day.lure,
    ]),
  );
  return `${[HEADER, ...lines].join('\r\n')}\r\n`;
}

export function compareCsv(differences: readonly DayDifference[]): string {
  const lines = differences.flatMap(({ date, items }) =>
    items.map(({ what, before, after, movedBy }) => line([date, what, before, after, movedBy])),
  );
  return `${['date,what,before,after,moved_by', ...lines].join('\r\n')}\r\n`;
}
