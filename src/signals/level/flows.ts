/** Flow and current from the gauges. */
import type { LakeConfig } from '../../config/types.ts';
import type { RecordView } from '../../record/types.ts';
import { median } from '../../science/index.ts';
import { DAY_MS } from '../../units/calendar.ts';
import { at } from '../../water/series.ts';
import { figure, ramp, type Provenance } from '../figure.ts';
import { bestGauge, gaugeSource, gaugeValues } from '../gauge.ts';
import type { Figure, SignalId, Signals } from '../types.ts';

/** Days whose median is the usual flow. */
const MEDIAN_DAYS = 30;
/** Share of the record's values below what counts as full release. Common practice, no source. */
const USUAL_HIGH = 0.95;
/** Shares of the full release from which turbines may run, and surely do. Common practice, no source. */
const TURBINES_RUN = [0.1, 0.4] as const;

/** Discharge, its ratio to the usual one, and whether turbines run; a stale gauge tells nothing. */
export function flowSignals(view: RecordView, lake: LakeConfig): Signals {
  const signals: { -readonly [Id in SignalId]?: Figure } = {};
  const flow = bestGauge(view, lake, 'discharge') ?? bestGauge(view, lake, 'inflow');
  if (flow && flow.freshness !== 'stale') {
    const from: Provenance = {
      kind: 'observed',
      asOfMs: flow.lastMs,
      freshness: flow.freshness,
      source: gaugeSource(flow),
    };
    const now = flow.lastValue;
    const month = gaugeValues(flow, view.asOfMs - MEDIAN_DAYS * DAY_MS);
    const discharge = figure(now, from);
    if (discharge) signals.dischargeM3s = discharge;
    const middle = month.length > 0 ? median(month) : 0;
    const ratio = middle > 0 ? figure(now / middle, from) : null;
    if (ratio) signals.dischargeRatio = ratio;
  }
  const release = bestGauge(view, lake, 'release');
  if (release && release.freshness !== 'stale') {
    const sorted = release.values.slice().sort();
    const high = at(sorted, Math.floor(sorted.length * USUAL_HIGH));
    const on =
      high > 0
        ? figure(ramp(release.lastValue / high, ...TURBINES_RUN), {
            kind: 'observed',
            asOfMs: release.lastMs,
            freshness: release.freshness,
            source: gaugeSource(release),
          })
        : null;
    if (on) signals.generationOn = on;
  }
  return signals;
}
