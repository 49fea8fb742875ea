import type { Kysely } from 'kysely';
import { alertsAt } from './alerts.ts';
import { floodsAt } from './floods.ts';
import { levelDaysOf } from './levelDays.ts';
import type { Knowledge } from './known.ts';
import { viewOver, type SeriesColumns } from './columns.ts';
import { loadColumns } from './loadColumns.ts';
import { readings } from '../readings/readings.ts';
import { releasesKnown } from '../readings/releases.ts';
import { retrievalsBetween } from './retrievals.ts';
import type { Database } from '../schema/index.ts';
import type { RecordView, Variable } from '../types.ts';
import { outlooksKnown } from '../schedule/outlook.ts';
import { DAY_MS, isoDate } from '../../units/time/index.ts';

/** Attempts further back say nothing about this morning. */
const RETRIEVAL_DAYS = 2;
/** What was told of hours further back than this tells nothing of how much water the dam lets through. */
const RELEASE_DAYS = 60;
/** Issues that are learned from lie within these, also where some mornings went without. */
const OUTLOOK_DAYS = 130;
const DEFAULT_DAYS = 60;

/** Where a view has its series from, after quality control; those without a value are left out. */
export type SeriesLoader = (
  fromMs: number,
  knowledge: Knowledge,
  fromOf: Partial<Record<Variable, number>>,
) => Promise<SeriesColumns[]>;

export interface ViewOptions {
  /** How far back, 60 unless told. */
  readonly days?: number;
  /**
   * Level rows only from this many days back, and daily means of all the days beside them: a year of level rows is
   * most of the time that a view takes.
   */
  readonly levelRowDays?: number;
  /** Also what archives brought later: for replays, which say so. */
  readonly archive?: boolean;
}

/**
 * Everything known about a lake at an instant. Quality control is applied here, on the rows of the view: what was
 * stored stays raw, and a value is judged only by what was known at `asOfMs`.
 *
 * @param asOfMs epoch ms; nothing measured or learned later is included, of forecasts the newest issue known by then
 */
export async function viewOf(
  db: Kysely<Database>,
  lake: string,
  asOfMs: number,
  { days = DEFAULT_DAYS, levelRowDays, archive = false }: ViewOptions = {},
  load?: SeriesLoader,
): Promise<RecordView> {
  const fromMs = asOfMs - days * DAY_MS;
  const levelFromMs = levelRowDays === undefined ? fromMs : Math.max(fromMs, asOfMs - levelRowDays * DAY_MS);
  const knowledge = { asOfMs, archive };
  const span = [fromMs, knowledge, { level: levelFromMs }] as const;
  const { alerts, checkedMs } = await alertsAt(db, lake, asOfMs);
  const releases = await releasesKnown(db, lake, asOfMs - RELEASE_DAYS * DAY_MS, asOfMs);
  const sinceMs = asOfMs - Math.min(days, OUTLOOK_DAYS) * DAY_MS;
  const outlooks = await outlooksKnown(db, lake, isoDate(Math.floor(sinceMs / DAY_MS)), asOfMs);
  const rest = {
    lake,
    asOfMs,
    ...(levelRowDays === undefined ? {} : { levelDays: await levelDaysOf(db, lake, fromMs, knowledge) }),
    readings: await readings(db, lake, fromMs, asOfMs),
    ...(outlooks.length === 0 ? {} : { outlooks }),
    ...(releases.length === 0 ? {} : { releases }),
    alerts,
    alertsCheckedMs: checkedMs,
    floods: await floodsAt(db, lake, fromMs, asOfMs),
    retrievals: await retrievalsBetween(db, lake, asOfMs - RETRIEVAL_DAYS * DAY_MS, asOfMs),
  };
  return viewOver(await (load?.(...span) ?? loadColumns(db, lake, ...span)), rest);
}
