/** Level, flow and current from the gauges. */
import type { LakeConfig } from '../config/types.ts';
import type { RecordView } from '../record/types.ts';
import { median } from '../science/index.ts';
import { levelChange } from '../water/level/index.ts';
import { DAY_MS, HOUR_MS } from './calendar.ts';
import { figure, ramp, type Provenance } from './figure.ts';
import { bestGauge, gaugeWords } from './gauge.ts';
import type { Figure, Gap, SignalId } from './types.ts';

export interface LevelResult {
  readonly signals: Partial<Record<SignalId, Figure>>;
  readonly gaps: readonly Gap[];
}

const lastWords = (hours: number): string =>
  hours < 48 ? `${Math.round(hours)} hours` : `${Math.round(hours / 24)} days`;

export function levelSignals(view: RecordView, lake: LakeConfig): LevelResult {
  const signals: Partial<Record<SignalId, Figure>> = {};
  const gaps: Gap[] = [];
  const level = bestGauge(view, lake, 'level');
  if (!level) {
    const asked = lake.gauges.some((gauge) => gauge.variable === 'level');
    gaps.push({
      id: 'level24hM',
      sentence: asked
        ? 'The level gauge has sent nothing: no level rule is used.'
        : 'No level gauge is configured: look at the water line at the ramp.',
    });
  } else {
    const from: Provenance = {
      kind: 'observed',
      asOfMs: level.lastMs,
      freshness: level.freshness,
      source: gaugeWords(level),
    };
    const put = (
      id: SignalId,
      value: number | null | undefined,
      low?: number,
      high?: number,
    ): Figure | null => {
      const made = figure(value, from, low, high);
      if (made && level.freshness !== 'stale') signals[id] = made;
      return made;
    };
    const points = level.rows.map((row) => ({ atMs: row.atMs, levelM: row.value }));
    for (const [id, span] of [
      ['level6hM', 6],
      ['level24hM', 24],
      ['level72hM', 72],
    ] as const) {
      const change = levelChange(points, level.lastMs, span);
      if (!change) continue;
      // What the noise of the sensor or a wind set-up explains is reported as no change.
      const shown = change.significant ? change.changeM : 0;
      put(id, shown, shown - change.noiseM, shown + change.noiseM);
      if (span === 6) put('levelRateMPerH', change.significant ? change.rateMPerH : 0);
    }
    if (lake.normalPoolM !== undefined)
      put('levelVsNormalM', (level.rows.at(-1)?.value ?? NaN) - lake.normalPoolM);
    if (level.freshness === 'stale') {
      const hours = (view.asOfMs - level.lastMs) / HOUR_MS;
      const last = figure(level.rows.at(-1)?.value, from);
      gaps.push({
        id: 'level24hM',
        sentence: `The level gauge has been silent for ${lastWords(hours)}: its last value is shown, no level rule is used.`,
        ...(last ? { last } : {}),
      });
    }
  }
  const ahead = view.observations
    .filter(
      (row) =>
        row.variable === 'level' &&
        row.kind === 'forecast' &&
        row.atMs > view.asOfMs &&
        row.atMs <= view.asOfMs + DAY_MS,
    )
    .sort((a, b) => a.atMs - b.atMs);
  const first = ahead[0];
  const lastAhead = ahead.at(-1);
  if (first && lastAhead && lastAhead.atMs - first.atMs >= 12 * HOUR_MS) {
    const made = figure(lastAhead.value - first.value, {
      kind: 'forecast',
      asOfMs: first.issuedMs ?? view.asOfMs,
      freshness: 'fresh',
      source: 'official stage forecast',
    });
    if (made) signals.levelNext24hM = made;
  }

  const flow = bestGauge(view, lake, 'discharge') ?? bestGauge(view, lake, 'inflow');
  if (flow && flow.freshness !== 'stale') {
    const from: Provenance = {
      kind: 'observed',
      asOfMs: flow.lastMs,
      freshness: flow.freshness,
      source: gaugeWords(flow),
    };
    const now = flow.rows.at(-1)?.value ?? NaN;
    const month = flow.rows.filter((row) => row.atMs > view.asOfMs - 30 * DAY_MS).map((row) => row.value);
    const discharge = figure(now, from);
    if (discharge) signals.dischargeM3s = discharge;
    const middle = month.length > 0 ? median(month) : 0;
    const ratio = middle > 0 ? figure(now / middle, from) : null;
    if (ratio) signals.dischargeRatio = ratio;
  }
  const release = bestGauge(view, lake, 'release');
  if (release && release.freshness !== 'stale') {
    const month = release.rows.map((row) => row.value).sort((a, b) => a - b);
    const high = month[Math.floor(month.length * 0.95)] ?? 0;
    const on =
      high > 0
        ? figure(ramp((release.rows.at(-1)?.value ?? 0) / high, 0.1, 0.4), {
            kind: 'observed',
            asOfMs: release.lastMs,
            freshness: release.freshness,
            source: gaugeWords(release),
          })
        : null;
    if (on) signals.generationOn = on;
  }
  return { signals, gaps };
}
