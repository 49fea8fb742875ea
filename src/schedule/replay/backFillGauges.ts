/** The gauges of a season: what they measured, and a year of daily levels before it. */
import type { GaugeConfig, LakeConfig } from '../../config/index.ts';
import { getState, putState } from '../../record/schedule/index.ts';
import { addDays, DAY_MS } from '../../units/time/index.ts';
import type { Observation, RecordStore } from '../../record/index.ts';
import {
  fetchLevelYear,
  fetchPast,
  gaugesWithAPast,
  gaugesWithAYear,
  REGISTRY,
  type RefreshDeps,
} from '../../services/index.ts';
import { ThawlineError } from '../../units/index.ts';
import type { PipelineContext } from '../context.ts';
import type { Season } from './backFill.ts';

/** Days before the first morning that single values of a gauge are asked for: as far as a briefing looks at them. */
const BEFORE_DAYS = 45;
/** Days asked for at once: at a value every quarter of an hour, 3,000 a gauge. */
const PIECE_DAYS = 31;
/** A stored day of a gauge that speaks every quarter of an hour, bytes, rounded up. */
export const BYTES_A_GAUGE_DAY = 6_000;

interface Piece {
  readonly fromMs: number;
  readonly toMs: number;
}

const dateOf = (ms: number): string => new Date(ms).toISOString().slice(0, 10);

/** The span of gauges that a season needs, in pieces that begin at fixed dates, so that seasons share them. */
function piecesOf(season: Season, nowMs: number): Piece[] {
  const first = Date.parse(`${addDays(season.from, -BEFORE_DAYS)}T00:00:00Z`);
  // A day more: the last morning is a local one.
  const last = Math.min(nowMs, Date.parse(`${addDays(season.to, 2)}T00:00:00Z`));
  const stepMs = PIECE_DAYS * DAY_MS;
  const pieces: Piece[] = [];
  for (let fromMs = Math.floor(first / stepMs) * stepMs; fromMs < last; fromMs += stepMs)
    pieces.push({ fromMs, toMs: Math.min(fromMs + stepMs, last) });
  return pieces;
}

/** By what is asked: a gauge that was configured otherwise has another past. */
const doneKey = (lake: LakeConfig, gauge: GaugeConfig, { fromMs }: Piece): string =>
  `back-fill:${lake.id}:gauge:${[gauge.service, gauge.office, gauge.station, gauge.variable, gauge.parameter, gauge.timeSeriesId].map((part) => part ?? '').join('/')}:${dateOf(fromMs)}`;

/** Gauges of which a piece is not in the record yet. */
async function missingOf(record: RecordStore, lake: LakeConfig, piece: Piece): Promise<GaugeConfig[]> {
  const missing: GaugeConfig[] = [];
  for (const gauge of gaugesWithAPast(lake)) {
    const done = await getState(record, doneKey(lake, gauge, piece));
    if (typeof done !== 'number' || done < piece.toMs) missing.push(gauge);
  }
  return missing;
}

/** How many days of single gauges are still to be asked for. */
export async function missingGaugeDays(
  record: RecordStore,
  lake: LakeConfig,
  season: Season,
  nowMs: number,
): Promise<number> {
  let days = 0;
  for (const piece of piecesOf(season, nowMs)) {
    const gauges = await missingOf(record, lake, piece);
    days += (gauges.length * (piece.toMs - piece.fromMs)) / DAY_MS;
  }
  return days;
}

/**
 * What the gauges measured through a season, so that its mornings know what live ones would: piece by piece, each answer
 * whole or not at all. A piece in which a gauge has no value stays open and is asked for again: a hole is no value.
 *
 * @returns what could not be had; a service that fails costs its gauges, not the season
 */
export async function fillGauges(
  ctx: PipelineContext,
  lake: LakeConfig,
  season: Season,
  deps: RefreshDeps,
): Promise<string[]> {
  const told: string[] = [];
  const silent = new Map<GaugeConfig, Piece[]>();
  for (const { id } of REGISTRY) {
    for (const piece of piecesOf(season, deps.nowMs)) {
      const gauges = (await missingOf(ctx.record, lake, piece)).filter(({ service }) => service === id);
      if (gauges.length === 0) continue;
      ctx.onProgress?.(
        `${lake.name}: gauges of ${dateOf(piece.fromMs)} to ${dateOf(piece.toMs)} (${gauges.length})`,
      );
      try {
        for (const { gauge, problem } of await fillPiece(ctx.record, lake, gauges, piece, deps)) {
          if (problem !== '') told.push(problem);
          silent.set(gauge, [...(silent.get(gauge) ?? []), piece]);
        }
      } catch (error) {
        if (!(error instanceof ThawlineError)) throw error;
        // One failure is enough for now: what is asked for next would most likely fail too.
        told.push(
          `Gauges could not be read from ${dateOf(piece.fromMs)} on: ${error.message} Run the same command again; it goes on from there.`,
        );
        break;
      }
    }
  }
  for (const [{ service, station, variable }, pieces] of silent) {
    const [first, last] = [pieces[0], pieces.at(-1)];
    if (first === undefined || last === undefined) continue;
    told.push(
      `${service} ${station} ${variable}: no values in ${pieces.length === 1 ? 'the part' : `${pieces.length} parts`} of ${dateOf(first.fromMs)} to ${dateOf(last.toMs)}; those mornings go without.`,
    );
  }
  const without = lake.gauges.filter((gauge) => !gaugesWithAPast(lake).includes(gauge));
  if (without.length > 0)
    told.push(
      `${[...new Set(without.map(({ service }) => service))].join(', ')}: gives no past of its gauges; of them only what the record holds is used.`,
    );
  return [...new Set(told)];
}

/** @returns the gauges without a value in it */
async function fillPiece(
  record: RecordStore,
  lake: LakeConfig,
  gauges: readonly GaugeConfig[],
  piece: Piece,
  deps: RefreshDeps,
): Promise<{ readonly gauge: GaugeConfig; readonly problem: string }[]> {
  const { observations, problems } = await fetchPast(lake, gauges, piece, deps);
  await record.putObservations(observations, deps.nowMs);
  const without: { gauge: GaugeConfig; problem: string }[] = [];
  for (const gauge of gauges) {
    if (observations.some((row) => isOf(row, gauge)))
      await putState(record, doneKey(lake, gauge, piece), piece.toMs, deps.nowMs);
    else without.push({ gauge, problem: problems.find((text) => text.includes(gauge.station)) ?? '' });
  }
  return without;
}

const isOf = (row: Observation, gauge: GaugeConfig): boolean =>
  row.variable === gauge.variable &&
  REGISTRY.find(({ id }) => id === gauge.service)?.owns(row, gauge) === true;

/** Daily levels year by year; a gauge that fails costs the level, not the season. */
export async function fillLevels(
  { record, onProgress }: PipelineContext,
  lake: LakeConfig,
  season: Season,
  deps: RefreshDeps,
): Promise<string[]> {
  if (gaugesWithAYear(lake).length === 0) return [];
  const last = Date.parse(`${addDays(season.to, 1)}T12:00:00Z`);
  const first = Date.parse(`${season.from}T12:00:00Z`);
  for (let endMs = Math.min(last, deps.nowMs); endMs > first; endMs -= 360 * DAY_MS) {
    const key = `back-fill:${lake.id}:levels:${new Date(endMs).toISOString().slice(0, 10)}`;
    if ((await getState(record, key)) === true) continue;
    onProgress?.(
      `${lake.name}: daily levels of the year before ${new Date(endMs).toISOString().slice(0, 10)}`,
    );
    try {
      await record.putObservations(await fetchLevelYear(lake, { ...deps, nowMs: endMs }), deps.nowMs);
      await putState(record, key, true, deps.nowMs);
    } catch (error) {
      if (!(error instanceof ThawlineError)) throw error;
      return [`Daily levels could not be read: ${error.message}`];
    }
  }
  return [];
}
