/** Clarity of the main arm: from a reading, a turbidity gauge, or the runoff of the last two weeks. */
import type { LakeConfig } from '../../config/index.ts';
import type { Reading, RecordView } from '../../record/index.ts';
import { addDays, DAY_MS, HOUR_MS, localDateAt } from '../../units/time/index.ts';
import { runoffMm } from '../../science/index.ts';
import { clarityClass, type ClarityEstimate } from '../../water/clarity/index.ts';
import { figure, type Provenance } from '../figure.ts';
import { gaugeSource, type GaugeSeries } from '../gauge.ts';
import type { ClarityReport, Figure, Freshness, SignalId, Signals } from '../types.ts';
import type { LocalDays } from '../weather/index.ts';

/** Days of runoff that can still be seen in a reservoir arm. */
const MEMORY_DAYS = 14;
/** Curve number of a mixed watershed when none is known: TR-55 table 2-2, between pasture and woods, soil group C. */
const MIXED_CURVE_NUMBER = 72;

/** A cone is three times as deep as its mean depth; few lakes are more pointed than that. */
const DEEPEST_TO_MEAN = 3;

type ClarityReading = Reading & { readonly clarityM: number };

/** Readings of the clarity of the main arm, oldest first. */
export function clarityReadings({ readings }: Pick<RecordView, 'readings'>): ClarityReading[] {
  return readings.flatMap((reading): ClarityReading[] =>
    reading.clarityM === undefined || reading.pocket !== undefined
      ? []
      : [{ ...reading, clarityM: reading.clarityM }],
  );
}

/** Nobody sees deeper than to the bottom: such a reading is in another unit or of another water. */
export const isTooDeep = (clarityM: number, { meanDepthM }: Pick<LakeConfig, 'meanDepthM'>): boolean =>
  clarityM > DEEPEST_TO_MEAN * meanDepthM;

/**
 * Clarity and turbidity, and what may be said of the clarity; none of them where neither a reading, nor a fresh gauge, nor
 * a week of rain is known. The rain of stale weather is not known.
 *
 * @param gauge the turbidity gauge, if any
 * @param level what is known of the level and the flow: a flood stains the water
 */
export function claritySignals(
  view: RecordView,
  lake: LakeConfig,
  weather: LocalDays,
  gauge: GaugeSeries | null,
  nowMs: number,
  weatherFreshness: Freshness,
  level: Signals = {},
): { signals: Signals; clarity: ClarityReport | null } {
  const today = localDateAt(nowMs, lake.zone);
  const days = weather.between(addDays(today, -MEMORY_DAYS), today);
  const rainKnown = weatherFreshness !== 'stale';
  const rained = (rainKnown ? days : []).flatMap(({ date, rainMm }) =>
    rainMm === null ? [] : [{ date, rainMm }],
  );
  const reading = clarityReadings(view)
    .filter(({ clarityM }) => !isTooDeep(clarityM, lake))
    .at(-1);
  const fresh = gauge && gauge.freshness !== 'stale' ? gauge : null;
  if (!reading && !fresh && rained.length < MEMORY_DAYS / 2) return { signals: {}, clarity: null };
  const curveNumber =
    lake.pockets.find((pocket) => pocket.curveNumber !== undefined)?.curveNumber ?? MIXED_CURVE_NUMBER;
  const { dischargeRatio, level24hM } = level;
  const result = clarityClass({
    ...(reading === undefined
      ? {}
      : { readingM: { value: reading.clarityM, ageDays: (nowMs - reading.atMs) / DAY_MS } }),
    ...(fresh ? { turbidityFnu: { value: fresh.lastValue, ageH: (nowMs - fresh.lastMs) / HOUR_MS } } : {}),
    runoffMmByDay: rainKnown
      ? rained.map((day) => ({
          ageDays: (Date.parse(today) - Date.parse(day.date)) / DAY_MS,
          mm: runoffMm(day.rainMm, curveNumber),
        }))
      : null,
    waterBody: lake.waterBody,
    ...(dischargeRatio === undefined || level24hM === undefined
      ? {}
      : { inflow: { ratio: dischargeRatio.value, rise24hM: level24hM.value } }),
  });
  if (result === null) return { signals: {}, clarity: null };
  const signals: { -readonly [Id in SignalId]?: Figure } = {};
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
    const turbidity = figure(fresh.lastValue, {
      kind: 'observed',
      asOfMs: fresh.lastMs,
      freshness: fresh.freshness,
      source: gaugeSource(fresh),
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
    return { kind: 'observed', asOfMs: gauge.lastMs, source: gaugeSource(gauge) };
  return result.from === 'reading'
    ? { kind: 'observed', asOfMs: reading?.atMs ?? nowMs, source: { code: 'anglerReading' } }
    : {
        kind: 'estimated',
        asOfMs: nowMs,
        source: { code: 'clarityOfRunoff', class: result.class, confidence: result.confidence },
      };
}
