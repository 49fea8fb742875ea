import type { Observation } from '../types.ts';
import { airAround } from './airAround.ts';
import type { Check, Surroundings } from './check.ts';
import type { Doubt } from './doubt.ts';
import { datumJump } from './datumJump.ts';
import { duplicateDay } from './duplicateDay.ts';
import { impossible } from './impossible.ts';
import { levelStep } from './levelStep.ts';
import { outOfWater } from './outOfWater.ts';
import { spike } from './spike.ts';
import { stuck } from './stuck.ts';
import { twoDepths } from './twoDepths.ts';
import { wrongSeries } from './wrongSeries.ts';

/** A model cannot get stuck or fall dry, but a reply can carry nonsense. */
const FOR_ALL: readonly Check[] = [wrongSeries, impossible];
/** In this order: a zigzag would else look like spikes, and a spike like a wide day. */
const FOR_INSTRUMENTS: readonly Check[] = [
  impossible,
  twoDepths,
  spike,
  stuck,
  duplicateDay,
  outOfWater,
  levelStep,
  datumJump,
];

/** Quality control over one series in time order; `around` is what it may be held against. */
export function judgeRows(rows: readonly Observation[], around: Surroundings): readonly Observation[] {
  const checks = rows[0]?.kind === 'observed' ? FOR_INSTRUMENTS : FOR_ALL;
  const reasons = new Map<Observation, Doubt>();
  let believed = rows.filter((row) => row.doubt === undefined);
  for (const check of checks) {
    const doubts = check(believed, around);
    if (doubts.size === 0) continue;
    for (const [row, reason] of doubts) reasons.set(row, reason);
    believed = believed.filter((row) => !doubts.has(row));
  }
  if (reasons.size === 0) return rows;
  return rows.map((row) => {
    const doubt = reasons.get(row);
    return doubt === undefined ? row : { ...row, doubt };
  });
}

/**
 * Quality control over all series of one lake: the same rows, with `doubt` set where a value is not believed.
 * Pure; values are never changed, and a doubt that the service itself stated is kept.
 *
 * @param series one lake's series, each in time order
 */
export function judgeSeries(
  series: readonly (readonly Observation[])[],
): readonly (readonly Observation[])[] {
  const unknown: Surroundings = { airC: () => undefined };
  const judgedAir = series.map((rows) =>
    rows[0]?.variable === 'air_temp' ? judgeRows(rows, unknown) : rows,
  );
  const around: Surroundings = { airC: airAround(judgedAir) };
  return judgedAir.map((rows) => (rows[0]?.variable === 'air_temp' ? rows : judgeRows(rows, around)));
}
export { POSSIBLE, isPossible } from './impossible.ts';
export { levelSteps } from './levelStep.ts';
export { isWrongSeries } from './wrongSeries.ts';
