/** The way of the data for one lake and one morning: record -> signals -> advice -> briefing. */
import { DateTime } from 'luxon';
import type { Advice } from '../advice/index.ts';
import { listBriefings, noticesOf } from '../record/schedule/index.ts';
import { HOUR_MS } from '../units/time/index.ts';
import {
  adviceFacts,
  checkedBriefing,
  composeBriefing,
  inOneFigure,
  readComparable,
  type Briefing,
  type ComparableIssue,
} from '../briefing/index.ts';
import { lakeById, type LakeConfig } from '../config/index.ts';
import type { RecordStore, RecordView, RecordWindow } from '../record/index.ts';
import { ATTRIBUTIONS } from '../services/index.ts';
import { readSignals, readTwoDays, type SignalReport } from '../signals/index.ts';
import { lessonsWorthTelling, worthTelling } from '../verification/index.ts';
import { withRulesWords } from '../words/index.ts';
import { adviseFrom } from './advice.ts';
import type { PipelineContext } from './context.ts';
import { LEVEL_YEAR } from './levelYear.ts';
import { refresh } from './refresh.ts';
import { outingReport, toldOfOutings } from './outings/report.ts';
import { dayOf, plannedDay, type PlannedDay } from './plan.ts';
import { nextIssueMs } from './slots.ts';
import { verificationOf } from './verification.ts';

export interface BriefingResult {
  readonly document: Briefing;
  readonly report: SignalReport;
  readonly advice: Advice;
  readonly view: RecordView;
  /** How many statements the gate held back, by the check that did. */
  readonly heldBack: Readonly<Record<string, number>>;
  /** The same morning for who fishes other hours than the lake has: its plan is made for those. */
  readonly forHours: (fishing: NonNullable<LakeConfig['fishing']>) => Briefing;
}

/** What the reader knows each source of the retrieval log by. */
const NAMES: ReadonlyMap<string, string> = new Map([
  ...Object.entries(ATTRIBUTIONS).map(([id, { name }]) => [id, name] as const),
  ['open-meteo-archive', `${ATTRIBUTIONS['open-meteo'].name} archive`],
  [LEVEL_YEAR, 'The past year of levels'],
]);

/** Days that the record is read back for a briefing. */
export const VIEW_DAYS = 420;
/** Days of single level values: the rates need three, the quality control and the ten days some more. */
const LEVEL_ROW_DAYS = 45;
/** Briefings looked at for the one before: amendments and later dates may lie in between. */
const LAST_BRIEFINGS = 5;

/** What a briefing may know at an instant. */
export function briefingView(
  record: Pick<RecordWindow, 'view'>,
  lake: LakeConfig,
  asOfMs: number,
  options: { readonly archive?: boolean } = {},
): Promise<RecordView> {
  return record.view(lake.id, asOfMs, { days: VIEW_DAYS, levelRowDays: LEVEL_ROW_DAYS, ...options });
}

/**
 * A morning briefing holds until the evening of its day: an hour after civil dusk, after midnight where none comes, and
 * after the reader's own last hour.
 *
 * @param endMs end of the fishing hours; left out where they are not known
 */
export function validUntilMs(
  report: SignalReport,
  issuedMs: number,
  zone: string,
  endMs = -Infinity,
): number {
  const dusk = report.sun.duskMs ?? DateTime.fromMillis(issuedMs, { zone }).endOf('day').toMillis();
  return Math.max(dusk, endMs, issuedMs) + HOUR_MS;
}

/** The newest briefing issued before an instant; null when none is kept or nothing in it can be compared. */
async function previousOf(
  record: RecordStore,
  lake: LakeConfig,
  localDate: string,
  asOfMs: number,
): Promise<ComparableIssue | null> {
  const kept = await listBriefings(record, lake.id, LAST_BRIEFINGS);
  const last = kept.find((row) => row.issuedMs < asOfMs && row.localDate <= localDate);
  return last === undefined ? null : readComparable(last.documentJson);
}

/**
 * Make the briefing of a lake as of an instant.
 *
 * @param options.offline use the record only
 * @throws ThawlineError for an unknown lake or an unusable record; never because a service failed
 */
export async function makeBriefing(
  ctx: PipelineContext,
  lakeId: string,
  options: {
    readonly asOfMs: number;
    readonly offline: boolean;
    /** `evening`: of the coming day, as far as its forecast is known; else of today. */
    readonly status?: 'scheduled' | 'amended' | 'corrected' | 'evening';
    readonly preview?: boolean;
  },
): Promise<BriefingResult> {
  const lake = lakeById(ctx.config, lakeId);
  if (!options.offline) await refresh(ctx, [lake], options.asOfMs);
  const view = await briefingView(ctx.record, lake, options.asOfMs);
  const { today, nextDay: comingDay } =
    options.status === 'evening'
      ? readTwoDays(view, lake, ATTRIBUTIONS)
      : { today: readSignals(view, lake, ATTRIBUTIONS), nextDay: null };
  const report = comingDay ?? today;
  const previous = await previousOf(ctx.record, lake, report.conditions.date, options.asOfMs);
  const done = await verificationOf(ctx.record, lake, view);
  const told = toldOfOutings(await outingReport(ctx.record, lake.id, { asOfMs: options.asOfMs }));
  const notices = await noticesOf(ctx.record, lake.id, report.conditions.date);
  const lessons = lessonsWorthTelling(report.outlook);
  const documentFor = (
    of: LakeConfig,
    advice: Advice,
    planned: PlannedDay | null,
  ): { readonly document: Briefing; readonly dropped: number } => {
    const { facts, dropped } = inOneFigure(
      composeBriefing({
        lake: of,
        report,
        ...(comingDay === null ? {} : { now: today }),
        advice: adviceFacts(planned === null ? advice : { ...advice, positions: planned.positions }),
        ...(planned === null ? {} : { plan: planned.plan }),
        issuedMs: options.asOfMs,
        validUntilMs: validUntilMs(report, options.asOfMs, of.zone, dayOf(report, of).fishing?.toMs),
        nextIssueMs: nextIssueMs(options.asOfMs, of),
        status:
          comingDay === null && options.status === 'evening' ? 'scheduled' : (options.status ?? 'scheduled'),
        ...(previous ? { previous } : {}),
        retrievals: view.retrievals.map(({ source, ok, problem, atMs }) => ({
          source,
          name: NAMES.get(source) ?? source,
          ok,
          // Of a file of the operator's own, file, line and path are theirs to know: the log and `check` tell them.
          problem: source === 'csv' ? '' : problem,
          atMs,
        })),
        demo: of.demo,
        scores: worthTelling(done.scores),
        ...(lessons.length === 0 ? {} : { outlook: lessons }),
        ...(told === null ? {} : { outings: told }),
        notices: notices.map(({ text, from, until }) => ({ text, from, until })),
        ...(options.preview ? { preview: true } : {}),
      }),
    );
    return { document: checkedBriefing(withRulesWords(facts, ctx.rules.texts)), dropped };
  };
  const advice = adviseFrom(ctx, lake, view, report);
  const planned = plannedDay(advice, report, lake, ctx.rules);
  const heldBack: Record<string, number> = {};
  for (const { check } of planned?.dropped ?? []) heldBack[check] = (heldBack[check] ?? 0) + 1;
  const { document, dropped } = documentFor(lake, advice, planned);
  if (dropped > 0) heldBack['figures'] = (heldBack['figures'] ?? 0) + dropped;
  const byHours = new Map<string, Briefing>();
  return {
    document,
    report,
    advice,
    view,
    heldBack,
    forHours: (fishing) => {
      const key = `${fishing.from}-${fishing.to}`;
      const known = byHours.get(key);
      if (known !== undefined) return known;
      const theirs = { ...lake, fishing };
      const advised = adviseFrom(ctx, theirs, view, report);
      const { document: made } = documentFor(theirs, advised, plannedDay(advised, report, theirs, ctx.rules));
      byHours.set(key, made);
      return made;
    },
  };
}
