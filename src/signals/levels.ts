/** Level from the gauges: how fast it moves, where it stands, what is officially forecast. */
import type { LakeConfig } from '../config/types.ts';
import type { RecordView } from '../record/types.ts';
import { windSetupM } from '../science/index.ts';
import { levelChange } from '../water/level/index.ts';
import { quantity } from '../units/placeholder.ts';
import { DAY_MS, HOUR_MS } from '../units/calendar.ts';
import { figure, mean, type Provenance } from './figure.ts';
import { bestGauge, gaugeWords, isOf, type GaugeSeries } from './gauge.ts';
import { hoursWithin } from './hourly.ts';
import { levelNow, levelStand } from './levelStand.ts';
import type { Figure, Gap, LevelBand, SignalId } from './types.ts';
import type { WeatherTable } from './weather.ts';
import { spanWords } from './words.ts';

export interface LevelResult {
  readonly signals: Partial<Record<SignalId, Figure>>;
  readonly gaps: readonly Gap[];
  readonly band: LevelBand | null;
}

const SPANS = [
  ['level6hM', 6],
  ['level24hM', 24],
  ['level72hM', 72],
] as const;
/** A lake's surface follows the wind within about this time, h. */
const TILT_H = 3;

/** Signals of the level, what is not known of it in sentences, and the range of the year. */
export function levelSignals(view: RecordView, lake: LakeConfig, weather: WeatherTable): LevelResult {
  const ahead = stageForecast(view, lake);
  const level = bestGauge(view, lake, 'level');
  if (!level) {
    const asked = lake.gauges.some((gauge) => gauge.variable === 'level');
    const sentence = asked
      ? 'The level gauge has sent nothing: no level rule is used.'
      : 'No level gauge is configured: look at the water line at the ramp.';
    return { signals: ahead, gaps: [{ id: 'level24hM', sentence }], band: null };
  }
  const from: Provenance = {
    kind: 'observed',
    asOfMs: level.lastMs,
    freshness: level.freshness,
    source: gaugeWords(level),
  };
  if (level.freshness === 'stale') {
    const sentence = `The level gauge has been silent for ${spanWords(view.asOfMs - level.lastMs)}: its last value is shown, no level rule is used.`;
    const last = figure(levelNow(level), from);
    return {
      signals: ahead,
      gaps: [
        { id: 'levelM', sentence, ...(last ? { last } : {}) },
        { id: 'level24hM', sentence },
      ],
      band: null,
    };
  }
  const stand = levelStand(view, lake, level, from);
  const jump = unconfirmedJump(view, level);
  return {
    signals: { ...rates(level, lake, weather, from), ...stand.signals, ...ahead },
    gaps: [...jump, ...stand.gaps],
    band: stand.band,
  };
}

/** A newest value that jumped: no rate comes of it, but a reader who can look should. */
function unconfirmedJump(view: RecordView, level: GaugeSeries): Gap[] {
  const last = level.rows.at(-1);
  const jumped = view.observations.find(
    (row) =>
      row.variable === 'level' &&
      row.doubt?.code === 'doubt.unconfirmed' &&
      row.atMs > level.lastMs &&
      row.station === last?.station &&
      isOf(row, level.gauge),
  );
  if (last === undefined || jumped === undefined) return [];
  const size = quantity('levelChange', jumped.value - last.value, true);
  return [
    {
      id: 'level24hM',
      sentence: `The level gauge ${level.gauge.where} shows a jump of ${size} that no second value confirms yet. It is not used: look at the ramp.`,
    },
  ];
}

function rates(
  level: GaugeSeries,
  lake: LakeConfig,
  weather: WeatherTable,
  from: Provenance,
): Partial<Record<SignalId, Figure>> {
  const signals: Partial<Record<SignalId, Figure>> = {};
  const put = (id: SignalId, value: number, doubt?: number): void => {
    const made =
      doubt === undefined ? figure(value, from) : figure(value, from, value - doubt, value + doubt);
    if (made) signals[id] = made;
  };
  const points = level.rows.map((row) => ({ atMs: row.atMs, levelM: row.value }));
  for (const [id, span] of SPANS) {
    const change = levelChange(
      points,
      level.lastMs,
      span,
      tiltM(weather, lake, level.lastMs - span * HOUR_MS, level.lastMs),
    );
    if (!change) continue;
    // What the noise of the sensor or a wind set-up explains is reported as no change.
    put(id, change.significant ? change.changeM : 0, change.noiseM);
    if (span === 6) put('levelRateMPerH', change.significant ? change.rateMPerH : 0);
  }
  return signals;
}

/**
 * Most that a change of the wind can have moved the level at a gauge between two instants, m: the set-up goes with the
 * square of the wind along the fetch, and the gauge may stand at either end of it. 0 where the fetch is not known.
 */
function tiltM(weather: WeatherTable, lake: LakeConfig, startMs: number, endMs: number): number {
  if (lake.fetchM === undefined) return 0;
  const perSquare = windSetupM(1, lake.fetchM, lake.meanDepthM);
  const [before, after] = [startMs, endMs].map((atMs) => {
    const winds = hoursWithin(weather.wind, atMs - TILT_H * HOUR_MS, atMs);
    const along = winds.map(({ value, atMs: hour }) => {
      const bearing = weather.windDir.get(Math.round(hour / HOUR_MS) * HOUR_MS)?.value;
      const angle = ((bearing ?? 0) * Math.PI) / 180;
      return {
        square: value ** 2,
        east: value ** 2 * Math.sin(angle),
        north: value ** 2 * Math.cos(angle),
        bearing,
      };
    });
    return {
      square: mean(along.map(({ square }) => square)) ?? 0,
      east: mean(along.map(({ east }) => east)) ?? 0,
      north: mean(along.map(({ north }) => north)) ?? 0,
      known: along.length > 0 && along.every(({ bearing }) => bearing !== undefined),
    };
  });
  if (before === undefined || after === undefined) return 0;
  // Without directions the wind may have turned right round.
  const moved =
    before.known && after.known
      ? Math.hypot(after.east - before.east, after.north - before.north)
      : before.square + after.square;
  return perSquare * moved;
}

/** Change of the official stage forecast over the day ahead: one gauge's, the preferred one's first. */
function stageForecast(view: RecordView, lake: LakeConfig): Partial<Record<SignalId, Figure>> {
  for (const gauge of lake.gauges) {
    if (gauge.variable !== 'level') continue;
    const ahead = view.observations
      .filter(
        (row) =>
          row.variable === 'level' &&
          row.kind === 'forecast' &&
          isOf(row, gauge) &&
          row.atMs > view.asOfMs &&
          row.atMs <= view.asOfMs + DAY_MS,
      )
      .sort((a, b) => a.atMs - b.atMs);
    const [first, last] = [ahead[0], ahead.at(-1)];
    if (!first || !last || last.atMs - first.atMs < 12 * HOUR_MS) continue;
    const made = figure(last.value - first.value, {
      kind: 'forecast',
      asOfMs: first.issuedMs ?? view.asOfMs,
      freshness: 'fresh',
      source: 'official stage forecast',
    });
    return made ? { levelNext24hM: made } : {};
  }
  return {};
}
