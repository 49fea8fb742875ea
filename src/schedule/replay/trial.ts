/** A changed number tried on past mornings of the record, beside the rules as they are. */
import type { LakeConfig, RuleBook } from '../../config/index.ts';
import { addDays, localDateAt, startOfDayMs } from '../../units/time/index.ts';
import type { PipelineContext } from '../context.ts';
import type { Season } from './backFill.ts';
import { replaySeason } from './season.ts';
import { compareSeasons, type DayDifference } from './seasonCompare.ts';
import { seasonDay, type SeasonDay } from './seasonDay.ts';

export interface Trial {
  readonly season: Season;
  /** Mornings that the record could make. */
  readonly mornings: number;
  readonly differences: readonly DayDifference[];
}

const LAST_DAYS = 30;
/** No trial is longer, days. */
const SEASON_DAYS = 122;

/** The last thirty mornings, and the last spring that has ended: February to May, half a year later south of the equator. */
export function trialSeasons(lake: LakeConfig, nowMs: number): readonly [Season, Season] {
  const today = localDateAt(nowMs, lake.zone);
  const south = lake.latDeg < 0;
  const [first, last] = south ? ['08-01', '11-30'] : ['02-01', '05-31'];
  const year = Number(today.slice(0, 4)) - (today.slice(5) > last ? 0 : 1);
  return [
    { from: addDays(today, -LAST_DAYS), to: addDays(today, -1) },
    { from: `${year}-${first}`, to: `${year}-${last}` },
  ];
}

/** Every morning of a season under two rule books, from the record alone; mornings of which it knows nothing are left out. */
export async function tryOn(
  ctx: PipelineContext,
  lake: LakeConfig,
  season: Season,
  books: readonly [RuleBook, RuleBook],
): Promise<Trial> {
  // Nothing was ever fetched for it: no need to make four months of mornings without weather.
  const endMs = startOfDayMs(addDays(season.to, 1), lake.zone);
  const { observations } = await ctx.record.view(lake.id, endMs, { days: SEASON_DAYS, archive: true });
  if (observations.length === 0) return { season, mornings: 0, differences: [] };
  const sides: [SeasonDay[], SeasonDay[]] = [[], []];
  for await (const made of replaySeason(ctx, lake, season, books)) {
    const [before, after] = made.documents;
    if (before === undefined || after === undefined || before.status === 'nil') continue;
    sides[0].push(seasonDay(made, before));
    sides[1].push(seasonDay(made, after));
  }
  return { season, mornings: sides[0].length, differences: compareSeasons(...sides) };
}
