/** Clarity of the main arm: from a reading, a turbidity gauge, or the runoff of the last two weeks. */
import type { LakeConfig } from '../config/types.ts';
import type { Reading, RecordView } from '../record/types.ts';
import { runoffMm } from '../science/index.ts';
import { clarityClass, type ClarityEstimate } from '../water/clarity/index.ts';
import { addDays, DAY_MS, HOUR_MS } from '../units/calendar.ts';
import { localDateAt } from '../units/localTime.ts';
import { figure, type Provenance } from './figure.ts';
import { bestGauge, gaugeWords, type GaugeSeries } from './gauge.ts';
import type { ClarityReport, Figure, Freshness, SignalId } from './types.ts';
import { localDays, type WeatherTable } from './weather.ts';

/** Days of runoff that can still be seen in a reservoir arm. */
const MEMORY_DAYS = 14;
/** Curve number of a mixed watershed when none is known: TR-55 table 2-2, between pasture and woods, soil group C. */
const MIXED_CURVE_NUMBER = 72;

/**
 * Clarity and turbidity, and what may be said of the clarity; none of them where neither a reading, nor a fresh gauge, nor
 * a week of rain is known. The rain of stale weather is not known.
 */
export function claritySignals(
  view: RecordView,
  lake: LakeConfig,
  table: WeatherTable,
  nowMs: number,
  weatherFreshness: Freshness,
): { signals: Partial<Record<SignalId, Figure>>; clarity: ClarityReport | null } {
  const today = localDateAt(nowMs, lake.zone);
  const days = localDays(table, lake.zone, addDays(today, -MEMORY_DAYS), today);
  const rainKnown = weatherFreshness !== 'stale';
  const rained = rainKnown ? days.filter((day) => day.rainMm !== null) : [];
  const reading = view.readings
    .filter((candidate) => candidate.clarityM !== undefined && candidate.pocket === undefined)
    .at(-1);
  const gauge = bestGauge(view, lake, 'turbidity');
  const fresh = gauge && gauge.freshness !== 'stale' ? gauge : null;
  if (!reading && !fresh && rained.length < MEMORY_DAYS / 2) return { signals: {}, clarity: null };
  const curveNumber =
    lake.pockets.find((pocket) => pocket.curveNumber !== undefined)?.curveNumber ?? MIXED_CURVE_NUMBER;
  const result = clarityClass({
    ...(reading?.clarityM === undefined
      ? {}
      : { readingM: { value: reading.clarityM, ageDays: (nowMs - reading.atMs) / DAY_MS } }),
    ...(fresh
      ? { turbidityFnu: { value: fresh.rows.at(-1)?.value ?? 0, ageH: (nowMs - fresh.lastMs) / HOUR_MS } }
      : {}),
    runoffMmByDay: rainKnown
      ? rained.map((day) => ({
          ageDays: (Date.parse(today) - Date.parse(day.date)) / DAY_MS,
          mm: runoffMm(day.rainMm ?? 0, curveNumber),
        }))
      : null,
    waterBody: lake.waterBody,
  });
  if (result === null) return { signals: {}, clarity: null };
  const signals: Partial<Record<SignalId, Figure>> = {};
  // Without a reading or a gauge only a class is known: its middle stands for it, and its bounds say how little that is.
  const value = result.secchiM ?? Math.sqrt(result.lowM * result.highM);
  const clarity = figure(
    value,
    {
      ...originOf(result, reading, fresh, nowMs),
      freshness: result.confidence === 'low' ? 'ageing' : 'fresh',
    },
    result.lowM,
    result.highM,
  );
  if (clarity) signals.clarityM = clarity;
  if (fresh) {
    const turbidity = figure(fresh.rows.at(-1)?.value, {
      kind: 'observed',
      asOfMs: fresh.lastMs,
      freshness: fresh.freshness,
      source: gaugeWords(fresh),
    });
    if (turbidity) signals.turbidityFnu = turbidity;
  }
  return {
    signals,
    clarity: {
      class: result.class,
      confidence: result.confidence,
      measured: result.secchiM !== null,
      because: result.because,
    },
  };
}

/** What the estimate rests on, and when that was measured: a reading and a gauge may both be there. */
function originOf(
  result: ClarityEstimate,
  reading: Reading | undefined,
  gauge: GaugeSeries | null,
  nowMs: number,
): Pick<Provenance, 'kind' | 'asOfMs' | 'source'> {
  if (result.from === 'gauge' && gauge)
    return { kind: 'observed', asOfMs: gauge.lastMs, source: gaugeWords(gauge) };
  return result.from === 'reading'
    ? { kind: 'observed', asOfMs: reading?.atMs ?? nowMs, source: 'reading by an angler' }
    : {
        kind: 'estimated',
        asOfMs: nowMs,
        source: `class ${result.class} from runoff, ${result.confidence} confidence`,
      };
}
