/** The main lake: its temperature by the model on the record, and its clarity. */
import type { LakeConfig } from '../../config/index.ts';
import type { RecordView } from '../../record/index.ts';
import { localDateAt } from '../../units/time/index.ts';
import { bestGauge } from '../gauge.ts';
import type { Part } from '../part.ts';
import type { ClarityReport, Freshness, Signals } from '../types.ts';
import type { LocalDays } from '../weather/index.ts';
import { claritySignals } from './clarity.ts';
import { waterGaps } from './gaps.ts';
import { lakeSignals } from './signals.ts';
import type { LakeTable } from './table.ts';

export { modelDay, lakeTable, THANKS_DAYS, type LakeTable } from './table.ts';
export { DAILY_MEAN_FROM, lakeReadings, mainThermometer } from './readings.ts';
export { REFUSAL_DAYS } from './gaps.ts';
export { pastWater } from './past.ts';

export interface WaterSeries extends LakeTable {
  /** Null where nothing is known of it. */
  readonly clarity: ClarityReport | null;
}

/**
 * @param water   the model's days, and what became of the readings
 * @param levelAt what is known of the level and the flow at an instant
 */
export function waterPart(
  view: RecordView,
  lake: LakeConfig,
  water: LakeTable,
  weather: LocalDays,
  weatherFreshness: Freshness,
  levelAt: (nowMs: number) => Signals,
): Part<WaterSeries> {
  const turbidity = bestGauge(view, lake, 'turbidity');
  const clarityAt = (nowMs: number): ReturnType<typeof claritySignals> =>
    claritySignals(view, lake, weather, turbidity, nowMs, weatherFreshness, levelAt(nowMs));
  const now = clarityAt(view.asOfMs);
  return {
    signals: (nowMs) => ({
      ...lakeSignals(water, localDateAt(nowMs, lake.zone), nowMs, weatherFreshness, nowMs > view.asOfMs),
      ...(nowMs === view.asOfMs ? now : clarityAt(nowMs)).signals,
    }),
    gaps: waterGaps(view, lake, water, weatherFreshness),
    series: { ...water, clarity: now.clarity },
  };
}
