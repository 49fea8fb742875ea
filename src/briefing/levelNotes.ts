/** What the level's figures say together: against normal pool, in the range of the year, and over other spans. */
import type { SignalId, SignalReport } from '../signals/types.ts';
import { quantity } from '../units/placeholder.ts';
import type { Messages } from '../words/index.ts';

/** Nearer to normal pool than this no reader sees a difference, m. */
const AT_POOL_M = 0.03;
/** The range is of daily means: a value this little outside it is a gust, not a record, m. */
const OUTSIDE_M = 0.03;
/** A smaller change prints as nothing in tenths of a foot, m. */
const SHOWS_M = 0.016;
/** A range this small is a pool held steady; thirds of it say nothing, m. */
const HELD_M = 0.15;
/** With fewer days the range is not called the year's. */
const WHOLE_YEAR_DAYS = 330;

/** `1.3 ft below normal pool; in the lower third of the past year's range, 611.0 ft to 617.2 ft.`; undefined when neither is known. */
export function levelStandWords(report: SignalReport, m: Messages): string | undefined {
  const { levelM, levelVsNormalM, levelBandShare } = report.conditions.signals;
  const parts: string[] = [];
  if (levelVsNormalM !== undefined) {
    const off = levelVsNormalM.value;
    const size = quantity('levelChange', Math.abs(off));
    if (Math.abs(off) < AT_POOL_M) parts.push(m.level.atPool);
    else parts.push(off > 0 ? m.level.abovePool(size) : m.level.belowPool(size));
  }
  const band = report.levelBand;
  if (levelM !== undefined && levelBandShare !== undefined && band !== undefined) {
    const span = m.level.span(band.days >= WHOLE_YEAR_DAYS ? null : band.days);
    const range = m.range(quantity('level', band.lowM), quantity('level', band.highM));
    if (band.highM - band.lowM < HELD_M)
      parts.push(m.level.held(span, quantity('levelChange', band.highM - band.lowM)));
    else if (levelM.value > band.highM + OUTSIDE_M) parts.push(m.level.highest(span, range));
    else if (levelM.value < band.lowM - OUTSIDE_M) parts.push(m.level.lowest(span, range));
    else {
      const third = Math.min(2, Math.max(0, Math.floor(levelBandShare.value * 3)));
      parts.push(m.level.third[third]?.(span, range) ?? '');
    }
  }
  return parts.length === 0 ? undefined : m.level.sentence(parts.join(m.level.join));
}

/** `Steady over 6 h; +0.4 ft in 72 h.`; undefined when neither span is known. */
export function levelPaceWords(report: SignalReport, m: Messages): string | undefined {
  const { signals } = report.conditions;
  const part = (id: SignalId, hours: number, rate?: number): string[] => {
    const change = signals[id];
    if (change === undefined) return [];
    if (Math.abs(change.value) < SHOWS_M) return [m.level.steady(hours)];
    const pace = rate === undefined ? '' : quantity('levelRate', rate, true);
    return [m.level.moved(quantity('levelChange', change.value, true), hours, pace)];
  };
  const parts = [...part('level6hM', 6, signals.levelRateMPerH?.value), ...part('level72hM', 72)];
  return parts.length === 0 ? undefined : m.level.sentence(parts.join(m.level.join));
}
