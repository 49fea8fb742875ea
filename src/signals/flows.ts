/** Flow and current from the gauges. */
import type { LakeConfig } from '../config/types.ts';
import type { RecordView } from '../record/types.ts';
import { median } from '../science/index.ts';
import { DAY_MS } from '../units/calendar.ts';
import { figure, ramp, type Provenance } from './figure.ts';
import { bestGauge, gaugeWords } from './gauge.ts';
import type { Figure, SignalId } from './types.ts';

/** Days whose median is the usual flow. */
const MEDIAN_DAYS = 30;
/** Share of the record's values below what counts as full release. Common practice, no source. */
const USUAL_HIGH = 0.95;
/** Shares of the full release from which turbines may run, and surely do. Common practice, no source. */
const TURBINES_RUN = [0.1, 0.4] as const;

/** Discharge, its ratio to the usual one, and whether turbines run; a stale gauge tells nothing. */
export function flowSignals(view: RecordView, lake: LakeConfig): Partial<Record<SignalId, Figure>> {
  const signals: Partial<Record<SignalId, Figure>> = {};
  const flow = bestGauge(view, lake, 'discharge') ?? bestGauge(view, lake, 'inflow');
  if (flow && flow.freshness !== 'stale') {
    const from: Provenance = {
      kind: 'observed',
      asOfMs: flow.lastMs,
      freshness: flow.freshness,
      source: gaugeWords(flow),
    };
    const now = flow.rows.at(-1)?.value ?? NaN;
    const month = flow.rows
      .filter((row) => row.atMs > view.asOfMs - MEDIAN_DAYS * DAY_MS)
      .map((row) => row.value);
    const discharge = figure(now, from);
    if (discharge) signals.dischargeM3s = discharge;
    const middle = month.length > 0 ? median(month) : 0;
    const ratio = middle > 0 ? figure(now / middle, from) : null;
    if (ratio) signals.dischargeRatio = ratio;
  }
  const release = bestGauge(view, lake, 'release');
  if (release && release.freshness !== 'stale') {
    const sorted = release.rows.map((row) => row.value).sort((a, b) => a - b);
    const high = sorted[Math.floor(sorted.length * USUAL_HIGH)] ?? 0;
    const on =
      high > 0
        ? figure(ramp((release.rows.at(-1)?.value ?? 0) / high, ...TURBINES_RUN), {
            kind: 'observed',
            asOfMs: release.lastMs,
            freshness: release.freshness,
            source: gaugeWords(release),
          })
        : null;
    if (on) signals.generationOn = on;
  }
  return signals;
}
