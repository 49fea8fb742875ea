/** Signals -> advice, with what a lake's configuration and the record add to them. */
import { type Advice, advise } from '../advice/index.ts';
import type { RecordView } from '../record/index.ts';
import type { LakeConfig } from '../config/index.ts';
import type { SignalReport } from '../signals/index.ts';
import type { PipelineContext } from './context.ts';
import { dayOf } from './plan.ts';
import { waysOf } from './ways.ts';

/** Advice from a lake's signals, with what safety must know besides: alerts, flood status, dam, open water. */
export function adviseFrom(
  ctx: Pick<PipelineContext, 'config' | 'rules'>,
  lake: LakeConfig,
  view: RecordView,
  report: SignalReport,
): Advice {
  const flood = view.floods.at(-1);
  return advise(report.conditions, ctx.rules, {
    tackle: ctx.config.tackle,
    hours: report.hours,
    day: { ...dayOf(report, lake), nowMs: report.conditions.asOfMs },
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
    ...waysOf(lake),
    ...(lake.places === undefined ? {} : { places: lake.places }),
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
