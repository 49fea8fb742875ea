/** The way of the data for one lake and one morning: services -> record -> signals -> advice -> briefing. */
import { readFile } from 'node:fs/promises';
import { DateTime } from 'luxon';
import { advise } from '../advice/index.ts';
import type { Advice } from '../advice/types.ts';
import { briefingSchema, composeBriefing, messagesFor, type BriefingDocument } from '../briefing/index.ts';
import { lakeById, type Config, type LakeConfig } from '../config/index.ts';
import type { RuleBook } from '../config/rules.ts';
import { listBriefings } from '../record/briefings.ts';
import type { RecordStore } from '../record/index.ts';
import type { RecordView } from '../record/types.ts';
import {
  ATTRIBUTIONS,
  createClient,
  fetchArchive,
  refreshLakes,
  type HttpClient,
  type RefreshDeps,
} from '../services/index.ts';
import { readSignals, type SignalReport } from '../signals/index.ts';
import { renderBriefing } from '../render/index.ts';
import { ThawlineError } from '../units/index.ts';
import { fillLevelYears } from './levelYear.ts';
import { verificationWords } from '../verification/index.ts';
import { nextIssueMs } from './slots.ts';
import { verificationOf } from './verification.ts';
import type { Pipeline } from './types.ts';
import { DAY_MS } from '../units/calendar.ts';

export interface PipelineContext {
  readonly config: Config;
  readonly record: RecordStore;
  readonly rules: RuleBook;
  readonly env: Readonly<Record<string, string | undefined>>;
  /** One line of progress; quiet in a pipe. */
  readonly onProgress?: (line: string) => void;
  /** For tests: a client that does not really sleep. */
  readonly client?: HttpClient;
}

export interface BriefingResult {
  readonly document: BriefingDocument;
  readonly report: SignalReport;
  readonly advice: Advice;
  readonly view: RecordView;
}

/** Days of weather the lake model wants behind it; below this the archive is asked once for the rest. */
const SPIN_UP_DAYS = 400;
/** Days that the record is read back for a briefing. */
const VIEW_DAYS = 420;
/** Days of single level values: the rates need three, the quality control and the ten days some more. */
const LEVEL_ROW_DAYS = 45;
/** The forecast service reaches back this far; the archive ends a few days ago, so the two overlap. */
const FORECAST_PAST_DAYS = 92;
/** After the first time, a refresh reaches back far enough to close an outage of a long weekend. */
const USUAL_PAST_DAYS = 7;

function clientOf(ctx: PipelineContext): HttpClient {
  const { services } = ctx.config;
  return (
    ctx.client ??
    createClient({
      contact: services.contact,
      timeoutMs: services.timeoutMs,
      parallelPerHost: services.parallelPerHost,
      validators: {
        get: async (url) => (await ctx.record.validators.get(url)) ?? null,
        set: (url, validator) => ctx.record.validators.set(url, validator),
      },
    })
  );
}

/** Days since the first hour of weather in the record; 0 when there is none. */
async function weatherSpan(record: RecordStore, lake: LakeConfig, nowMs: number): Promise<number> {
  const span = await record.span(lake.id, { variable: 'air_temp' });
  return span === null ? 0 : (nowMs - span.firstMs) / DAY_MS;
}

/**
 * Fetch everything the lakes' configuration names and store it. What a service refuses is logged as a retrieval with
 * its sentence and becomes a gap of the briefing; it never stops the others.
 *
 * @param nowMs the instant of asking, epoch ms
 */
export async function refresh(
  ctx: PipelineContext,
  lakes: readonly LakeConfig[],
  nowMs: number,
): Promise<void> {
  const client = clientOf(ctx);
  const { services } = ctx.config;
  const usgsKey = ctx.env[services.usgsKeyEnv];
  const spans = await Promise.all(lakes.map((lake) => weatherSpan(ctx.record, lake, nowMs)));
  const fresh = spans.some((days) => days < FORECAST_PAST_DAYS - 2);
  const deps: RefreshDeps = {
    client,
    services,
    nowMs,
    pastDays: fresh ? FORECAST_PAST_DAYS : USUAL_PAST_DAYS,
    ...(usgsKey === undefined || usgsKey === '' ? {} : { usgsKey }),
    readFile: (path) => readFile(path, 'utf8'),
    ...(ctx.onProgress ? { onProgress: ctx.onProgress } : {}),
  };
  const results = await refreshLakes(lakes, deps);
  for (const result of results) {
    await ctx.record.putObservations(result.observations);
    if (result.alertsCheckedMs !== null)
      await ctx.record.putAlerts(result.lake, result.alerts, result.alertsCheckedMs);
    await ctx.record.putFloods(result.floods);
    await ctx.record.putRetrievals(result.retrievals);
  }
  await fillLevelYears(ctx.record, lakes, results, deps);
  for (const [index, lake] of lakes.entries()) {
    if ((spans[index] ?? 0) >= SPIN_UP_DAYS - 10 || !lake.weather.includes('open-meteo')) continue;
    await fillFromArchive(ctx, client, lake, nowMs);
  }
  // Only what is stored may be answered with "not changed" next time.
  await client.confirm();
  if (!ctx.client) await client.close();
}

/** A year of past weather for a new lake. Failing costs a wider interval, nothing else, so it is logged and passed over. */
async function fillFromArchive(
  ctx: PipelineContext,
  client: HttpClient,
  lake: LakeConfig,
  nowMs: number,
): Promise<void> {
  const date = (atMs: number): string => DateTime.fromMillis(atMs, { zone: 'utc' }).toISODate() ?? '';
  const started = performance.now();
  const log = (ok: boolean, problem: string): Promise<void> =>
    ctx.record.putRetrievals([
      {
        lake: lake.id,
        source: 'open-meteo-archive',
        atMs: nowMs,
        ok,
        status: null,
        durationMs: Math.round(performance.now() - started),
        bytes: 0,
        problem,
      },
    ]);
  try {
    const rows = await fetchArchive(lake, date(nowMs - SPIN_UP_DAYS * DAY_MS), date(nowMs - 60 * DAY_MS), {
      client,
      services: ctx.config.services,
      nowMs,
    });
    await ctx.record.putObservations(rows);
    await log(true, '');
  } catch (error) {
    if (!(error instanceof ThawlineError)) throw error;
    await log(
      false,
      `The weather of the past year could not be fetched: the lake model starts from the last three months.`,
    );
  }
}

/** What a briefing may know at an instant. */
export function briefingView(record: RecordStore, lake: LakeConfig, asOfMs: number): Promise<RecordView> {
  return record.view(lake.id, asOfMs, { days: VIEW_DAYS, levelRowDays: LEVEL_ROW_DAYS });
}

/** A morning briefing holds until the evening of its day, an hour after civil dusk. */
function validUntilMs(report: SignalReport, issuedMs: number, zone: string): number {
  const dusk =
    report.sun.duskMs ?? DateTime.fromMillis(issuedMs, { zone }).set({ hour: 20, minute: 0 }).toMillis();
  return Math.max(dusk, issuedMs) + 3_600_000;
}

/** The newest briefing issued before an instant, parsed; null when none is kept or it was written by another version. */
async function previousOf(
  record: RecordStore,
  lake: LakeConfig,
  localDate: string,
  asOfMs: number,
): Promise<BriefingDocument | null> {
  const kept = await listBriefings(record.db, lake.id, 5);
  const last = kept.find((row) => row.issuedMs < asOfMs && row.localDate <= localDate);
  if (!last) return null;
  const parsed = briefingSchema.safeParse(JSON.parse(last.documentJson));
  return parsed.success ? parsed.data : null;
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
    readonly status?: 'scheduled' | 'amended' | 'corrected';
    readonly preview?: boolean;
  },
): Promise<BriefingResult> {
  const lake = lakeById(ctx.config, lakeId);
  if (!options.offline) await refresh(ctx, [lake], options.asOfMs);
  const view = await briefingView(ctx.record, lake, options.asOfMs);
  const report = readSignals(view, lake, ATTRIBUTIONS);
  const advice = adviseFrom(ctx, lake, view, report);
  const previous = await previousOf(ctx.record, lake, report.conditions.date, options.asOfMs);
  const done = await verificationOf(ctx.record, lake, view);
  const document = composeBriefing({
    lake,
    report,
    advice,
    issuedMs: options.asOfMs,
    validUntilMs: validUntilMs(report, options.asOfMs, lake.zone),
    nextIssueMs: nextIssueMs(options.asOfMs, lake),
    status: options.status ?? 'scheduled',
    ...(previous ? { previous } : {}),
    retrievals: view.retrievals.map(({ source, ok, problem, atMs }) => ({ source, ok, problem, atMs })),
    demo: lake.demo,
    verification: { issues: done.issues, sentences: verificationWords(done.scores, messagesFor('en')) },
    ...(options.preview ? { preview: true } : {}),
  });
  return { document, report, advice, view };
}

/** Advice from a lake's signals, with what safety must know besides: alerts, flood status, dam, open water. */
function adviseFrom(ctx: PipelineContext, lake: LakeConfig, view: RecordView, report: SignalReport): Advice {
  const flood = view.floods.at(-1);
  return advise(report.conditions, ctx.rules, {
    tackle: ctx.config.tackle,
    hours: report.hours,
    ahead: report.ahead,
    pockets: report.pockets.flatMap((pocket) => {
      const configured = lake.pockets.find((candidate) => candidate.id === pocket.id);
      return configured
        ? [
            {
              name: configured.name,
              ...(configured.bankDeg === undefined ? {} : { bankDeg: configured.bankDeg }),
            },
          ]
        : [];
    }),
    points: lake.points,
    safety: {
      alerts: view.alerts,
      alertsChecked: view.alertsCheckedMs !== null,
      belowDam: lake.belowDam,
      floodCategory: flood?.observed ?? 'unknown',
      ...(lake.fetchM === undefined ? {} : { fetchM: lake.fetchM }),
      ...humidityWhenHottest(report.hours),
    },
  });
}

/** Humidity at the day's hottest hour, which the heat index is judged with; nothing where no hour has both. */
function humidityWhenHottest(hours: SignalReport['hours']): { humidityPct?: number } {
  let hottest: { readonly airC: number; readonly humidityPct: number } | undefined;
  for (const { airC, humidityPct } of hours) {
    if (airC === undefined || humidityPct === undefined) continue;
    if (hottest === undefined || airC > hottest.airC) hottest = { airC, humidityPct };
  }
  return hottest === undefined ? {} : { humidityPct: hottest.humidityPct };
}

/** A refresh this young need not be repeated before an issue. */
const YOUNG_MS = 20 * 60_000;

/** The pipeline as the schedule sees it: refresh in the night, make and render at the hour of issue. */
export function pipelineFor(ctx: PipelineContext): Pipeline {
  const refreshOne = async (lakeId: string, nowMs: number): Promise<{ ok: boolean; problem: string }> => {
    const lake = lakeById(ctx.config, lakeId);
    await refresh(ctx, [lake], nowMs);
    const { retrievals } = await ctx.record.view(lake.id, nowMs, { days: 1 });
    const now = retrievals.filter((row) => row.atMs >= nowMs - 1000);
    const failed = now.filter((row) => !row.ok);
    // One dead gauge is a gap of the briefing; a refresh has failed only when nobody answered.
    return { ok: now.some((row) => row.ok), problem: failed.map((row) => row.problem).join(' ') };
  };
  return {
    refresh: refreshOne,
    async makeBriefing(lakeId, asOfMs, edition) {
      const last = await ctx.record.lastRefreshMs(lakeId);
      const offline = last !== null && asOfMs - last < YOUNG_MS;
      const { document } = await makeBriefing(ctx, lakeId, {
        asOfMs,
        offline,
        status: edition === 'amendment' ? 'amended' : 'scheduled',
      });
      return {
        document,
        safetyLevel: document.safety.level,
        firstPlace: document.positions[0]?.place ?? '',
        render: (units, form) => renderBriefing(document, { units, form }),
      };
    },
  };
}
