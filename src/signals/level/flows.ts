/** Flow and current from the gauges. */
import type { LakeConfig } from '../../config/index.ts';
import type { RecordView } from '../../record/index.ts';
import { DAY_MS } from '../../units/time/index.ts';
import { at } from '../../water/index.ts';
import { median } from '../../science/index.ts';
import { figure, ramp, type Provenance } from '../figure.ts';
import { bestGauge, gaugeSource, gaugeValues, type GaugeSeries } from '../gauge.ts';
import type { Figure, SignalId, Signals } from '../types.ts';

/** Days whose median is the usual flow. */
const MEDIAN_DAYS = 30;
/** Share of the record's values below what counts as full release. Common practice, no source. */
const USUAL_HIGH = 0.95;
/** Shares of the full release from which turbines may run, and surely do. Common practice, no source. */
export const TURBINES_RUN = [0.1, 0.4] as const;

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
  const release = freshRelease(view, lake);
  // Below a dam what it lets through is the flow. Its ratio to the usual one tells nothing: it goes up and down by design.
  if (
    signals.dischargeM3s === undefined &&
    release !== null &&
    (lake.belowDam || lake.waterBody === 'tailwater')
  ) {
    const through = figure(release.gauge.lastValue, releasedBy(release.gauge));
    if (through) signals.dischargeM3s = through;
  }
  const on = release && figure(release.shareOn(release.gauge.lastValue), releasedBy(release.gauge));
  if (on) signals.generationOn = on;
  return signals;
}

const releasedBy = (gauge: GaugeSeries): Provenance => ({
  kind: 'observed',
  asOfMs: gauge.lastMs,
  freshness: gauge.freshness,
  source: gaugeSource(gauge),
});

/** The release gauge, and how far a release counts as turbines running; null where none is fresh or none ever ran. */
export function freshRelease(
  view: RecordView,
  lake: LakeConfig,
): {
  readonly gauge: GaugeSeries;
  readonly highM3s: number;
  readonly shareOn: (m3s: number) => number;
} | null {
  const gauge = bestGauge(view, lake, 'release');
  if (gauge === null || gauge.freshness === 'stale') return null;
  const sorted = gauge.values.slice().sort();
  const high = at(sorted, Math.floor(sorted.length * USUAL_HIGH));
  return high > 0 ? { gauge, highM3s: high, shareOn: (m3s) => ramp(m3s / high, ...TURBINES_RUN) } : null;
}
