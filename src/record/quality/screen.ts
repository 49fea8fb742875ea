/**
 * Whether a check can find anything in a series, told from its numbers alone. Most series of most mornings are well, and
 * need no row looked at. It may say yes too often, never no wrongly: each screen asks for less than its check.
 */
import { DAY_MS, HOUR_MS } from '../../units/time/index.ts';
import { at, type SeriesColumns } from '../observations/columns.ts';
import { SMALLEST_M } from './datumJump.ts';
import { MAY_REPEAT } from './duplicateDay.ts';
import { MOST_RAIN_PER_HOUR_MM, POSSIBLE } from './impossible.ts';
import { TRACKING_RANGE_K } from './outOfWater.ts';
import { SPIKE } from './spike.ts';
import { STUCK_H } from './stuck.ts';
import { SMALLEST_STEP_K } from './twoDepths.ts';

export function mayBeDoubted(column: SeriesColumns): boolean {
  // What the service doubts itself splits the series for every check.
  if (column.doubts.size > 0 || isOutside(column)) return true;
  return column.kind === 'observed' && (steps(column) || rests(column) || repeats(column) || swings(column));
}

function isOutside({ variable, periodS, values }: SeriesColumns): boolean {
  const [low, top] = POSSIBLE[variable];
  const hours = Math.max(1, (periodS * 1000) / HOUR_MS);
  const high = variable === 'rain' ? Math.min(top, MOST_RAIN_PER_HOUR_MM * hours) : top;
  return values.some((value) => !(value >= low && value <= high));
}

/** A step that a spike, a moved zero or a second depth would need. */
function steps({ variable, values }: SeriesColumns): boolean {
  const limits = [
    SPIKE[variable],
    variable === 'level' ? SMALLEST_M : undefined,
    variable === 'water_temp' ? SMALLEST_STEP_K : undefined,
  ].filter((limit) => limit !== undefined);
  if (limits.length === 0) return false;
  const limit = Math.min(...limits);
  for (let i = 1; i < values.length; i += 1)
    if (Math.abs(at(values, i) - at(values, i - 1)) > limit) return true;
  return false;
}

/** One value kept for as long as a stuck sensor would. */
function rests({ variable, atMs, values }: SeriesColumns): boolean {
  const hours = STUCK_H[variable];
  if (hours === undefined) return false;
  let start = 0;
  for (let i = 1; i < values.length; i += 1) {
    if (at(values, i) !== at(values, start)) start = i;
    else if (at(atMs, i) - at(atMs, start) >= hours * HOUR_MS) return true;
  }
  return false;
}

/** A whole UTC day whose every value stood there a day before. */
function repeats({ variable, atMs, values }: SeriesColumns): boolean {
  if (MAY_REPEAT.includes(variable)) return false;
  let before = 0;
  let isSame = false;
  for (let i = 0; i < values.length; i += 1) {
    const instant = at(atMs, i);
    const opens = i === 0 || Math.floor(instant / DAY_MS) !== Math.floor(at(atMs, i - 1) / DAY_MS);
    if (opens && isSame) return true;
    while (before < i && at(atMs, before) < instant - DAY_MS) before += 1;
    const matches = at(atMs, before) === instant - DAY_MS && at(values, before) === at(values, i);
    isSame = matches && (opens || isSame);
  }
  return isSame;
}

/** A range within any 24 h that only a thermometer in the air has. */
function swings({ variable, atMs, values }: SeriesColumns): boolean {
  if (variable !== 'water_temp') return false;
  let start = 0;
  for (let i = 0; i < values.length; i += 1) {
    while (at(atMs, i) - at(atMs, start) > DAY_MS) start += 1;
    let [low, high] = [Infinity, -Infinity];
    for (let k = start; k <= i; k += 1) {
      low = Math.min(low, at(values, k));
      high = Math.max(high, at(values, k));
    }
    if (high - low >= TRACKING_RANGE_K) return true;
  }
  return false;
}
