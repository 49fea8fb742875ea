/** The mornings of the past, each made with what it could have known. */
import type { Advice } from '../../advice/index.ts';
import { type LakeConfig, type RuleBook, tuneRules } from '../../config/index.ts';
import { addDays, DAY_MS, instantOf, startOfDayMs } from '../../units/time/index.ts';
import {
  adviceFacts,
  checkedBriefing,
  composeBriefing,
  type Briefing,
  type ComparableIssue,
  readComparable,
} from '../../briefing/index.ts';
import { foreseen, looksAhead, type RecordView, type RecordWindow } from '../../record/index.ts';
import { ATTRIBUTIONS } from '../../services/index.ts';
import { readSignals, type SignalReport } from '../../signals/index.ts';
import { withRulesWords } from '../../words/index.ts';
import { adviseFrom } from '../advice.ts';
import type { PipelineContext } from '../context.ts';
import { briefingView, validUntilMs, VIEW_DAYS } from '../makeBriefing.ts';
import { plannedDay } from '../plan.ts';
import { nextIssueMs } from '../slots.ts';
import type { Season } from './backFill.ts';

/** `kept`: the issue that was out then. `archive`: none was kept, the weather that came stands in. */
export type ForecastBasis = 'kept' | 'archive' | 'none';

export interface ReplayedMorning {
  readonly date: string;
  readonly asOfMs: number;
  readonly forecast: ForecastBasis;
  /** One document for each of the rule books, in their order. */
  readonly documents: readonly Briefing[];
}

/** Days that a forecast looks ahead. */
const AHEAD_DAYS = 8;

/**
 * The view of a morning. Where no issue of a forecast was kept, the archive's hours to come stand in for one, as an issue
 * of that instant: a forecast without error, which the book says.
 */
async function viewThen(
  window: RecordWindow,
  lake: LakeConfig,
  asOfMs: number,
): Promise<{ view: RecordView; forecast: ForecastBasis }> {
  const view = await briefingView(window, lake, asOfMs, { archive: true });
  if (looksAhead(view)) return { view, forecast: 'kept' };
  const toMs = asOfMs + AHEAD_DAYS * DAY_MS;
  const later = await window.view(lake.id, toMs, { days: AHEAD_DAYS, archive: true });
  const withStandIn = foreseen(view, later);
  return withStandIn === null ? { view, forecast: 'none' } : { view: withStandIn, forecast: 'archive' };
}

function compose(
  lake: LakeConfig,
  view: RecordView,
  report: SignalReport,
  advice: Advice,
  rules: RuleBook,
  previous: ComparableIssue | null,
): Briefing {
  const planned = plannedDay(advice, report, lake, rules);
  const document = checkedBriefing(
    composeBriefing({
      lake,
      report,
      advice: adviceFacts(advice),
      ...(planned === null ? {} : { plan: planned.plan }),
      issuedMs: view.asOfMs,
      validUntilMs: validUntilMs(report, view.asOfMs, lake.zone),
      nextIssueMs: nextIssueMs(view.asOfMs, lake),
      status: 'scheduled',
      ...(previous === null ? {} : { previous }),
      retrievals: [],
      demo: lake.demo,
      scores: [],
      notices: [],
    }),
  );
  return withRulesWords(document, rules.texts);
}

/**
 * Makes every morning of a season, oldest first. Signals are read once a morning, whatever the number of rule books.
 *
 * @param books rules to advise by
 */
export async function* replaySeason(
  ctx: PipelineContext,
  lake: LakeConfig,
  season: Season,
  books: readonly RuleBook[],
): AsyncGenerator<ReplayedMorning> {
  const window = await ctx.record.window(
    lake.id,
    startOfDayMs(season.from, lake.zone) - VIEW_DAYS * DAY_MS,
    startOfDayMs(season.to, lake.zone) + (AHEAD_DAYS + 1) * DAY_MS,
  );
  let previous: readonly (ComparableIssue | null)[] = books.map(() => null);
  for (let date = season.from; date <= season.to; date = addDays(date, 1)) {
    const asOfMs = instantOf(date, lake.issueAt, lake.zone);
    const { view, forecast } = await viewThen(window, lake, asOfMs);
    const report = readSignals(view, lake, ATTRIBUTIONS);
    const documents = books.map((rules, i) =>
      compose(
        lake,
        view,
        report,
        adviseFrom({ config: ctx.config, rules }, lake, view, report),
        rules,
        previous[i] ?? null,
      ),
    );
    previous = documents.map((document) => readComparable(JSON.stringify(document)));
    yield { date, asOfMs, forecast, documents };
    ctx.onProgress?.(`${lake.name}: ${date}`);
  }
}

/**
 * Rules with numbers changed, `id=value` each.
 *
 * @throws ThawlineError `config` for an id that leads to no number, `usage` for what is no pair
 */
export function rulesWith(rules: RuleBook, changes: ReadonlyMap<string, number>): RuleBook {
  return tuneRules(rules, Object.fromEntries(changes));
}
