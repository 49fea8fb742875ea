/** Level and flow from the gauges: how fast they move, where the level stands, what is officially forecast. */
import type { LakeConfig } from '../../config/index.ts';
import type { RecordView } from '../../record/index.ts';
import { columnsOf } from '../columns.ts';
import { figure, type Provenance } from '../figure.ts';
import type { GapFact } from '../facts.ts';
import {
  bestGauge,
  dailyLevels,
  disbelievedSince,
  gaugeSource,
  isOf,
  type Doubtful,
  type GaugeSeries,
} from '../gauge.ts';
import type { Part } from '../part.ts';
import type { Gap, LevelBand, Signals } from '../types.ts';
import type { WeatherTable } from '../weather/index.ts';
import { beyondLake, leftPool } from './beyond.ts';
import { dailyStand } from './daily.ts';
import { flowSignals } from './flows.ts';
import { stageForecast } from './forecast.ts';
import { rates } from './rates.ts';
import { releaseSeries, type ReleaseSeries } from './release.ts';
import { levelNow, levelStand } from './stand.ts';

export interface LevelSeries {
  /** The gauge in use, fresh or not; null without one. */
  readonly gauge: GaugeSeries | null;
  /** Range of the year; null while too little of it is known. */
  readonly band: LevelBand | null;
  /** The level of the moment, m; undefined where none is known now. */
  readonly nowM: number | undefined;
  readonly release: ReleaseSeries;
}

/** Level and flow are known of the present alone: a coming day has none of these signals. */
export function levelPart(view: RecordView, lake: LakeConfig, weather: WeatherTable): Part<LevelSeries> {
  const gauge = bestGauge(view, lake, 'level');
  const { signals, gaps, band } = levelOf(view, lake, weather, gauge);
  const now: Signals = { ...flowSignals(view, lake), ...signals, ...stageForecast(view, lake) };
  return {
    signals: (nowMs) => (nowMs === view.asOfMs ? now : {}),
    gaps,
    series: { gauge, band, nowM: signals.levelM?.value, release: releaseSeries(view, lake) },
  };
}

interface LevelResult {
  readonly signals: Signals;
  readonly gaps: readonly Gap[];
  readonly band: LevelBand | null;
}

function levelOf(
  view: RecordView,
  lake: LakeConfig,
  weather: WeatherTable,
  level: GaugeSeries | null,
): LevelResult {
  if (level === null) {
    const asked = lake.gauges.filter((gauge) => gauge.variable === 'level');
    for (const gauge of asked) {
      const disbelieved = disbelievedSince(view, gauge);
      if (disbelieved !== undefined) return unknown(notBelieved(gauge.where, disbelieved));
    }
    const daily = dailyLevels(view, lake);
    if (daily !== null) return dailyStand(view, lake, daily);
    const isAsked = asked.length > 0;
    const fact = { code: isAsked ? 'levelNeverSent' : 'noLevelGauge' } as const;
    return { signals: {}, gaps: [{ id: 'level24hM', fact }], band: null };
  }
  if (level.disbelieved !== undefined) return unknown(notBelieved(level.gauge.where, level.disbelieved));
  const from: Provenance = {
    kind: 'observed',
    asOfMs: level.lastMs,
    freshness: level.freshness,
    source: gaugeSource(level),
  };
  if (level.freshness === 'stale') {
    const fact = { code: 'levelSilent', ageMs: view.asOfMs - level.lastMs } as const;
    const last = figure(levelNow(level), from);
    return {
      signals: {},
      gaps: [
        { id: 'levelM', fact, ...(last ? { last } : {}) },
        { id: 'level24hM', fact },
      ],
      band: null,
    };
  }
  const beyond = beyondLake(lake, level) ?? leftPool(view, lake, level);
  if (beyond !== null) return unknown(beyond);
  const stand = levelStand(view, lake, level, from);
  return {
    signals: { ...rates(level, lake, weather, from), ...stand.signals },
    gaps: [...unconfirmedJump(view, level), ...stand.gaps],
    band: stand.band,
  };
}

const notBelieved = (where: string, { doubt }: Doubtful): GapFact => ({
  code: 'levelNotBelieved',
  where,
  doubt,
});

/** No level, no change, no range: the same is said of all of them. */
function unknown(fact: GapFact): LevelResult {
  return {
    signals: {},
    gaps: [
      { id: 'levelM', fact },
      { id: 'level24hM', fact },
    ],
    band: null,
  };
}

/** A newest value that jumped: no rate comes of it, but a reader who can look should. */
function unconfirmedJump(view: RecordView, level: GaugeSeries): Gap[] {
  const jumped = columnsOf(view).doubted.find(
    (row) =>
      row.variable === 'level' &&
      row.doubt?.code === 'doubt.unconfirmed' &&
      row.atMs > level.lastMs &&
      row.station === level.station &&
      isOf(row, level.gauge),
  );
  if (jumped === undefined) return [];
  const { where } = level.gauge;
  return [{ id: 'level24hM', fact: { code: 'levelJumped', where, jumpM: jumped.value - level.lastValue } }];
}
