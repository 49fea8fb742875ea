import { groupBy } from '../observations/groupBy.ts';
import type { Observation } from '../types.ts';
import { DAY_MS } from '../../units/time/index.ts';
import { doubtAll, NO_DOUBTS, type Check, type Surroundings } from './check.ts';
import type { Doubt } from './doubt.ts';

/**
 * Daily range above which a thermometer is taken to hang in the air, K. Sensors left dry by a falling lake showed 11 to
 * 17 K in winter where those in the water showed 0.4 to 3 K; 7 is the middle of the usual 6 to 8. Common practice, no source.
 */
const DRY_RANGE_K = 7;
/** Below this range the likeness to the air proves nothing, K. */
export const TRACKING_RANGE_K = 4;
const TRACKING_SLOPE = 0.6;
const TRACKING_CORRELATION = 0.9;
const FEWEST_VALUES = 6;

function rangeOf(rows: readonly Observation[]): number {
  let low = Infinity;
  let high = -Infinity;
  for (const { value } of rows) {
    low = Math.min(low, value);
    high = Math.max(high, value);
  }
  return high - low;
}

/** Whether the series goes up and down with the air, hour by hour and nearly as far. */
function tracksAir(rows: readonly Observation[], around: Surroundings): boolean {
  let [n, sx, sy, sxx, syy, sxy] = [0, 0, 0, 0, 0, 0];
  for (const row of rows) {
    const air = around.airC(row.atMs);
    if (air === undefined) continue;
    n += 1;
    sx += air;
    sy += row.value;
    sxx += air * air;
    syy += row.value * row.value;
    sxy += air * row.value;
  }
  if (n < FEWEST_VALUES) return false;
  const varX = sxx - (sx * sx) / n;
  const varY = syy - (sy * sy) / n;
  const cov = sxy - (sx * sy) / n;
  if (varX <= 0 || varY <= 0) return false;
  return cov / varX > TRACKING_SLOPE && cov / Math.sqrt(varX * varY) > TRACKING_CORRELATION;
}

/** Days on which a water thermometer behaved like one in the air. */
export const outOfWater: Check = (rows, around) => {
  if (rows[0]?.variable !== 'water_temp') return NO_DOUBTS;
  const doubts: [Observation, Doubt][] = [];
  const judge = (day: readonly Observation[]): void => {
    if (day.length < FEWEST_VALUES) return;
    const range = rangeOf(day);
    if (range > DRY_RANGE_K) doubts.push(...doubtAll(day, { code: 'doubt.dryRange', rangeK: range }));
    else if (range >= TRACKING_RANGE_K && tracksAir(day, around))
      doubts.push(...doubtAll(day, { code: 'doubt.tracksAir' }));
  };
  for (const day of groupBy(rows, (row) => Math.floor(row.atMs / DAY_MS)).values()) judge(day);
  // The newest day is not over: its last 24 h are judged too, or a morning would always look calm.
  const newest = rows.at(-1)?.atMs ?? 0;
  judge(rows.filter((row) => row.atMs > newest - DAY_MS));
  return new Map(doubts);
};
