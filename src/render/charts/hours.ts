/** Figures of the day's hours, as the strip draws and says them. */
import { eighthOf } from '../../units/index.ts';
import type { BriefingPage, Words } from '../../words/index.ts';

export type Hour = BriefingPage['series']['hours'][number];

export interface HourValue {
  readonly atMs: number;
  readonly value: number;
}

/** The hours in which a figure is known. */
export const known = (hours: readonly Hour[], field: keyof Hour): HourValue[] =>
  hours.flatMap((hour) => {
    const value = hour[field];
    return typeof value === 'number' ? [{ atMs: hour.atMs, value }] : [];
  });

/** The greatest, the first of several. */
export const most = (points: readonly HourValue[]): HourValue | undefined =>
  points.reduce<HourValue | undefined>(
    (top, point) => (top === undefined || point.value > top.value ? point : top),
    undefined,
  );

/** The eighth of the compass that wind comes from; '' where no direction is known. */
export function fromWhere(deg: number | undefined, w: Words['front']): string {
  return deg === undefined ? '' : (w.points[eighthOf(deg)] ?? '');
}
