/** A level of which only the means of days are sent. */
import type { LakeConfig } from '../../config/index.ts';
import type { RecordView } from '../../record/index.ts';
import { addDays, localDateAt } from '../../units/time/index.ts';
import { bandPosition } from '../../water/level/index.ts';
import { figure, signalsFrom, type Provenance } from '../figure.ts';
import { gaugeRows, gaugeSource, type GaugeSeries } from '../gauge.ts';
import type { Gap } from '../types.ts';
import { poolMisfit, type LevelStand } from './stand.ts';

/** Spans whose ends are two means of whole days. */
const SPANS = [
  ['level24hM', 1],
  ['level72hM', 3],
] as const;
/** What the mean of a day can be off by, m: wind and sensor even out over it. Common practice, no source. */
const MEAN_OFF_M = 0.01;

/**
 * The last day's mean and its change from the means before it. How the level moves within a day is not known, and is said
 * so.
 */
export function dailyStand(view: RecordView, lake: LakeConfig, level: GaugeSeries): LevelStand {
  const from: Provenance = {
    kind: 'observed',
    asOfMs: level.lastMs,
    freshness: level.freshness,
    source: gaugeSource(level, true),
  };
  const dayOf = (atMs: number): string => localDateAt(atMs - 1, lake.zone);
  const date = dayOf(level.lastMs);
  const ageMs = view.asOfMs - level.lastMs;
  const now = level.lastValue;
  if (level.freshness === 'stale') {
    const last = figure(now, from);
    const silent = { code: 'levelSilent', ageMs } as const;
    return { signals: {}, gaps: [{ id: 'levelM', fact: silent, ...(last ? { last } : {}) }], band: null };
  }
  const { signals, put } = signalsFrom(from);
  const gaps: Gap[] = [{ id: 'level6hM', fact: { code: 'levelDailyOnly', where: level.gauge.where, ageMs } }];
  put('levelM', now);
  const rows = gaugeRows(level);
  const byDate = new Map(rows.map(({ atMs, value }) => [dayOf(atMs), value]));
  for (const [id, days] of SPANS) {
    const before = byDate.get(addDays(date, -days));
    if (before === undefined) continue;
    const changeM = now - before;
    put(id, changeM, changeM - MEAN_OFF_M, changeM + MEAN_OFF_M);
  }
  const why = poolMisfit(view, lake, level, now);
  if (why !== null) gaps.push({ id: 'levelVsNormalM', fact: why });
  const points = rows.map(({ atMs, value }) => ({ atMs, levelM: value }));
  const place = bandPosition(points, level.lastMs, now, why === null ? lake.normalPoolM : undefined);
  put('levelVsNormalM', place.vsNormalM);
  put('levelBandShare', place.share);
  const { lowM, highM, days } = place;
  return { signals, gaps, band: lowM === null || highM === null ? null : { lowM, highM, days } };
}
