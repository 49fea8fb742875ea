/** Levels that this lake cannot have reached, whatever other waters can: the size of the lake bounds them. */
import type { LakeConfig } from '../../config/index.ts';
import { levelSteps } from '../../record/quality/index.ts';
import type { RecordView } from '../../record/index.ts';
import { HOUR_MS } from '../../units/time/index.ts';
import { median } from '../../science/index.ts';
import { columnsOf } from '../columns.ts';
import type { GapFact } from '../facts.ts';
import { gaugeRows, gaugeValues, isOf, type GaugeSeries } from '../gauge.ts';
import { poolMisfit } from './stand.ts';

const SPAN_H = 72;
/**
 * Beyond this, or three mean depths (the deepest point of a cone), no lake rises or falls in three days: even a flood
 * pool ends. Common practice, no source.
 */
const MOST_M = 15;
/**
 * A standing lake has the inflow of its whole shore to spread over its whole surface: it does not rise or fall by this
 * from rest to rest between two values, m. Common practice, no source.
 */
const STANDING_STEP_M = 2;

/** Water that a gate or a turbine moves from rest to rest. */
const isRunning = ({ waterBody, belowDam }: LakeConfig): boolean =>
  belowDam || waterBody === 'tailwater' || waterBody === 'run-of-river';

/**
 * What the gauge shows of the last three days that the lake cannot have done; null where there is nothing of it. Running
 * water has no such bounds but those of every gauge.
 */
export function beyondLake(lake: LakeConfig, level: GaugeSeries): GapFact | null {
  if (isRunning(lake)) return null;
  const rows = gaugeRows(level, level.lastMs - SPAN_H * HOUR_MS);
  const last = rows.at(-1);
  if (last === undefined) return null;
  const { where } = level.gauge;
  const stepped = levelSteps(rows, STANDING_STEP_M).get(last);
  if (stepped !== undefined) return { code: 'levelNotBelieved', where, doubt: stepped };
  const most = Math.max(MOST_M, 3 * lake.meanDepthM);
  for (const row of rows) {
    const changeM = last.value - row.value;
    if (Math.abs(changeM) <= most) continue;
    const hours = Math.max(1, Math.round((last.atMs - row.atMs) / HOUR_MS));
    return { code: 'levelBeyondLake', where, changeM, hours };
  }
  return null;
}

/** A gauge that stood about normal pool until its zero moved, and is now further from it than a lake can be. */
export function leftPool(view: RecordView, lake: LakeConfig, level: GaugeSeries): GapFact | null {
  const now = median(gaugeValues(level, level.lastMs - HOUR_MS));
  if (poolMisfit(view, lake, level, now)?.code !== 'poolTooFar') return null;
  const moved = columnsOf(view).doubted.find(
    (row) =>
      row.variable === 'level' &&
      row.doubt?.code === 'doubt.datumJump' &&
      row.station === level.station &&
      isOf(row, level.gauge) &&
      poolMisfit(view, lake, level, row.value) === null,
  );
  if (moved?.doubt === undefined) return null;
  const stepM = Math.abs(now - moved.value);
  return { code: 'levelNotBelieved', where: level.gauge.where, doubt: { code: 'doubt.levelStep', stepM } };
}
