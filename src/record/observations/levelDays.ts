import { sql, type Kysely } from 'kysely';
import { groupBy } from './groupBy.ts';
import type { Knowledge } from './known.ts';
import { isKnown, measured } from './loadObservations.ts';
import { POSSIBLE } from '../quality/impossible.ts';
import { judgeSeries } from '../quality/index.ts';
import type { Database } from '../schema/index.ts';
import { seriesOf, type Series } from './series.ts';
import type { LevelDay } from '../types.ts';
import { DAY_MS } from '../../units/time/index.ts';

/** Where a day and the one before stay within this, m, there is no spike and no jump to look for. */
const QUIET_M = 0.3;

interface Day {
  /** UTC day since 1970. */
  readonly day: number;
  readonly mean: number;
  readonly low: number;
  readonly high: number;
}

/**
 * Daily mean levels of every measured level series of a lake, averaged by the database: a year of a gauge that speaks
 * every quarter hour is 35,000 rows, and the band of the year needs 365. Only days that moved much are read row by row
 * and put through quality control; days before a moved zero carry their doubt.
 *
 * @param fromMs    only values after it, epoch ms
 * @param knowledge only values up to its instant, as they were known
 * @returns by series, oldest day first
 */
export async function levelDaysOf(
  db: Kysely<Database>,
  lake: string,
  fromMs: number,
  knowledge: Knowledge,
): Promise<LevelDay[]> {
  const toMs = knowledge.asOfMs;
  const result: LevelDay[] = [];
  for (const series of await seriesOf(db, lake)) {
    if (series.variable !== 'level' || series.kind === 'forecast') continue;
    const days = await averaged(db, series, fromMs, knowledge);
    const means = new Map(days.map(({ day, mean }) => [day, mean]));
    const jumps: number[] = [];
    for (const { first, last } of unquietRuns(days)) {
      // A day of margin on both sides: neighbours for the spikes, and a before and after for a jump.
      const start = Math.max(fromMs, (first - 1) * DAY_MS - 1);
      const end = Math.min(toMs, (last + 2) * DAY_MS - 1);
      const rows = judgeSeries([await measured(db, series, start, end, knowledge)]).flat();
      const believed = groupBy(
        rows.filter((row) => row.doubt === undefined),
        (row) => Math.floor((row.atMs - series.periodS * 500) / DAY_MS),
      );
      const jumped = rows.findLast((row) => row.doubt?.code === 'doubt.datumJump');
      const jumpDay = jumped === undefined ? -Infinity : Math.floor(jumped.atMs / DAY_MS);
      if (jumped !== undefined) jumps.push(jumpDay);
      for (let day = first; day <= last; day += 1) {
        const values = believed.get(day)?.map((row) => row.value) ?? [];
        if (values.length > 0) means.set(day, values.reduce((sum, value) => sum + value, 0) / values.length);
        else if (day > jumpDay) means.delete(day);
      }
    }
    // Turbines and floods make many steps; a zero is moved once.
    const since = jumps.length === 1 ? (jumps[0] ?? -Infinity) : -Infinity;
    const { source, station, datum, periodS } = series;
    for (const [day, levelM] of means) {
      const doubt = day > since ? {} : { doubt: { code: 'doubt.datumJump', stepM: null } as const };
      result.push({ source, station, datum, periodS, atMs: (day + 0.5) * DAY_MS, levelM, ...doubt });
    }
  }
  return result;
}

async function averaged(
  db: Kysely<Database>,
  series: Series,
  fromMs: number,
  knowledge: Knowledge,
): Promise<Day[]> {
  // A daily value is stamped with the end of its day: half a period back lies in the day it speaks of.
  const half = sql.lit(series.periodS * 500);
  const day = sql<number>`(at_ms - ${half}) / ${sql.lit(DAY_MS)}`;
  return await db
    .selectFrom('observation')
    .select(({ fn }) => [
      day.as('day'),
      fn.avg<number>('value').as('mean'),
      fn.min<number>('value').as('low'),
      fn.max<number>('value').as('high'),
    ])
    .where('series_id', '=', series.id)
    .where('at_ms', '>', fromMs)
    .where('at_ms', '<=', knowledge.asOfMs)
    .where(isKnown(knowledge))
    .where((the) =>
      the.not(
        the.exists(
          the
            .selectFrom('observation as later')
            .select('later.at_ms')
            .whereRef('later.series_id', '=', 'observation.series_id')
            .whereRef('later.at_ms', '=', 'observation.at_ms')
            .whereRef('later.known_s', '>', 'observation.known_s')
            .where(isKnown({ ...knowledge, archive: false }, 'later')),
        ),
      ),
    )
    .where('doubt', 'is', null)
    .where('value', '>=', POSSIBLE.level[0])
    .where('value', '<=', POSSIBLE.level[1])
    .groupBy(day)
    .orderBy(day)
    .execute();
}

/** Runs of neighbouring days with too wide a range, alone or together with the day before. */
function unquietRuns(days: readonly Day[]): { first: number; last: number }[] {
  const runs: { first: number; last: number }[] = [];
  for (const [i, { day, low, high }] of days.entries()) {
    const before = days[i - 1];
    const near = before !== undefined && before.day === day - 1 ? before : { low, high };
    if (Math.max(high, near.high) - Math.min(low, near.low) <= QUIET_M) continue;
    const run = runs.at(-1);
    if (run !== undefined && run.last >= day - 2) run.last = day;
    else runs.push({ first: near === before ? day - 1 : day, last: day });
  }
  return runs;
}
