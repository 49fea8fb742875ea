/** Rain gauge against weather model: where they disagree grossly, the reader is told both. */
import type { LakeConfig } from '../../config/index.ts';
import type { ObservationKind, RecordView } from '../../record/index.ts';
import { HOUR_MS } from '../../units/time/index.ts';
import { sum } from '../figure.ts';
import type { RainCheck } from '../types.ts';
import { hourly } from './hourly.ts';

const SPAN_H = 72;
/** Share of the hours that both must know. */
const KNOWN = 11 / 12;
/**
 * A shower can hit one and miss the other: only a difference of this size and ratio is gross. Common practice, no source.
 */
const APART_MM = 10;
const TIMES = 2.5;

/**
 * Rain of the last 72 h as measured and as a weather model has it, when they differ by 10 mm and by a factor of 2.5;
 * null when they agree, or when either does not know the hours.
 */
export function rainCheck(view: RecordView, lake: LakeConfig): RainCheck | null {
  const fromMs = view.asOfMs - SPAN_H * HOUR_MS;
  const total = (kinds: readonly ObservationKind[]): number | null => {
    const hours = hourly(view, 'rain', lake.weather, kinds).within(fromMs, view.asOfMs);
    return hours.length < SPAN_H * KNOWN ? null : sum(hours);
  };
  const measuredMm = total(['observed', 'analysis']);
  const modelMm = total(['model']);
  if (measuredMm === null || modelMm === null) return null;
  const [less, more] = [Math.min(measuredMm, modelMm), Math.max(measuredMm, modelMm)];
  return more - less >= APART_MM && more >= TIMES * less ? { measuredMm, modelMm } : null;
}
