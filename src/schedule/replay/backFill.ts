/** Fetches the past of a lake for a replay: once, in pieces, each whole or not at all, and goes on where it was cut off. */
import { statfsSync } from 'node:fs';
import { dirname } from 'node:path';
import { DateTime } from 'luxon';
import type { LakeConfig } from '../../config/index.ts';
import { getState, putState } from '../../record/schedule/index.ts';
import { addDays, DAY_MS, localDateAt } from '../../units/time/index.ts';
import { isServerRecord, type Observation } from '../../record/index.ts';
import { fetchArchive, type RefreshDeps } from '../../services/index.ts';
import { ThawlineError } from '../../units/index.ts';
import type { PipelineContext } from '../context.ts';
import { BYTES_A_GAUGE_DAY, fillGauges, fillLevels, missingGaugeDays } from './backFillGauges.ts';

/** First day of the weather archive. */
const ARCHIVE_FROM = '1940-01-01';
/** Days before the first morning that the lake model starts from. */
const SPIN_UP_DAYS = 400;
/** Days after the last morning that stand in for a forecast nobody kept. */
const AHEAD_DAYS = 8;
/** The archive is whole up to this many days ago. */
const ARCHIVE_LAG_DAYS = 6;
/** Days asked for at once: some 2,200 hours of a dozen columns. */
const PIECE_DAYS = 92;
/** Share of the hours of a piece that must have come for it to count. */
const WHOLE = 0.99;
/** A stored day of weather and levels, bytes: 24 hours of a dozen series, rounded up. */
const BYTES_A_DAY = 16_000;
/** Left free on the disk, bytes. */
const SPARE_BYTES = 64_000_000;

export interface Season {
  /** Local dates, both included. */
  readonly from: string;
  readonly to: string;
}

/** @throws ThawlineError `usage` for a span that cannot be replayed */
export function checkSeason(season: Season, lake: LakeConfig, nowMs: number): void {
  const { from, to } = season;
  for (const [flag, date] of [
    ['--from', from],
    ['--to', to],
  ] as const)
    if (!/^\d{4}-\d{2}-\d{2}$/.test(date) || !DateTime.fromISO(date).isValid)
      throw new ThawlineError('usage', `${flag} is a date such as 2025-02-01, not "${date}".`);
  if (from > to) throw new ThawlineError('usage', `--from ${from} lies after --to ${to}: exchange them.`);
  const today = localDateAt(nowMs, lake.zone);
  if (to > today)
    throw new ThawlineError('usage', `--to ${to} has not come yet: today is ${today} at ${lake.name}.`);
  if (addDays(from, -SPIN_UP_DAYS) < ARCHIVE_FROM)
    throw new ThawlineError(
      'usage',
      `--from ${from}: the weather archive begins on ${ARCHIVE_FROM}, and the water is modelled from ${SPIN_UP_DAYS} days before the first morning. Begin at ${addDays(ARCHIVE_FROM, SPIN_UP_DAYS)} or later.`,
    );
}

interface Piece {
  readonly from: string;
  readonly to: string;
}

/** The span of weather that a season needs, in pieces that begin at fixed dates, so that seasons share them. */
export function piecesOf(season: Season, nowMs: number): Piece[] {
  const first = addDays(season.from, -SPIN_UP_DAYS);
  const whole = localDateAt(nowMs - ARCHIVE_LAG_DAYS * DAY_MS, 'utc');
  const wanted = addDays(season.to, AHEAD_DAYS);
  const last = wanted < whole ? wanted : whole;
  const pieces: Piece[] = [];
  const epochDay = Math.floor(Date.parse(`${first}T00:00:00Z`) / DAY_MS);
  const start = new Date((epochDay - (epochDay % PIECE_DAYS)) * DAY_MS).toISOString().slice(0, 10);
  for (
    let from = start < ARCHIVE_FROM ? ARCHIVE_FROM : start;
    from <= last;
    from = addDays(from, PIECE_DAYS)
  ) {
    const end = addDays(from, PIECE_DAYS - 1);
    pieces.push({ from, to: end < last ? end : last });
  }
  return pieces;
}

function checkRoom(path: string, days: number, gaugeBytes: number): void {
  if (path === ':memory:' || isServerRecord(path)) return;
  const { bavail, bsize } = statfsSync(dirname(path));
  const needed = days * BYTES_A_DAY + gaugeBytes + SPARE_BYTES;
  if (bavail * bsize >= needed) return;
  throw new ThawlineError(
    'record',
    `The past of ${days} days takes some ${Math.ceil(needed / 1e6)} MB, and ${Math.floor((bavail * bsize) / 1e6)} MB are free under ${path}: make room or replay a shorter span. Nothing was fetched.`,
  );
}

/** What lake and pockets are modelled from: a hole in one of them would be taken for weather that was not. */
const NEEDED = ['air_temp', 'humidity', 'rain', 'wind_speed', 'cloud', 'shortwave'] as const;

function checkWhole(rows: readonly Observation[], piece: Piece, lake: LakeConfig): void {
  const days = (Date.parse(piece.to) - Date.parse(piece.from)) / DAY_MS + 1;
  for (const needed of NEEDED) {
    const hours = new Set(rows.filter(({ variable }) => variable === needed).map(({ atMs }) => atMs)).size;
    if (hours >= WHOLE * days * 24) continue;
    throw new ThawlineError(
      'service',
      `The archive gave ${hours} of ${days * 24} hours of ${piece.from} to ${piece.to} for ${lake.name} (${needed}): nothing of them was stored. Run the same command again; it goes on from there.`,
      { retryable: true },
    );
  }
}

/** Pieces that are in the record already, by the lake's position: a lake that moved has another past. */
const doneKey = (lake: LakeConfig, { from }: Piece): string =>
  `back-fill:${lake.id}:${lake.latDeg.toFixed(4)},${lake.lonDeg.toFixed(4)}:${from}`;

export interface BackFilled {
  /** Pieces fetched now; the others were there. */
  readonly fetched: number;
  readonly pieces: number;
  /** Sentences about gauges that could not be read; none when there was nothing to complain of. */
  readonly gauges: readonly string[];
}

/**
 * Brings what a season needs into the record: the weather of the archive, what gauges measured where their service gives
 * it, and their daily levels of a year. Values count as known now, marked as an archive's.
 *
 * @throws ThawlineError when the archive fails or gives less than it was asked for; what came before stays
 */
export async function backFill(
  ctx: PipelineContext,
  lake: LakeConfig,
  season: Season,
  deps: RefreshDeps,
): Promise<BackFilled> {
  if (!lake.weather.includes('open-meteo'))
    throw new ThawlineError(
      'config',
      `${lake.name} takes its weather from ${lake.weather.join(', ') || 'nowhere'}, and only open-meteo keeps an archive: add it to "weather", or replay with --offline what the record holds.`,
    );
  const { record } = ctx;
  const pieces = piecesOf(season, deps.nowMs);
  const missing: Piece[] = [];
  for (const piece of pieces) {
    const done = await getState(record, doneKey(lake, piece));
    if (typeof done !== 'string' || done < piece.to) missing.push(piece);
  }
  const gaugeDays = await missingGaugeDays(record, lake, season, deps.nowMs);
  checkRoom(ctx.config.recordPath, missing.length * PIECE_DAYS, gaugeDays * BYTES_A_GAUGE_DAY);
  for (const [index, piece] of missing.entries()) {
    ctx.onProgress?.(
      `${lake.name}: weather of ${piece.from} to ${piece.to} (${index + 1} of ${missing.length})`,
    );
    const rows = await fetchArchive(lake, piece.from, piece.to, deps);
    checkWhole(rows, piece, lake);
    await record.putObservations(rows, deps.nowMs);
    await putState(record, doneKey(lake, piece), piece.to, deps.nowMs);
  }
  return {
    fetched: missing.length,
    pieces: pieces.length,
    gauges: [...(await fillLevels(ctx, lake, season, deps)), ...(await fillGauges(ctx, lake, season, deps))],
  };
}
