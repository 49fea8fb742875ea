import type { Reading, RecordView } from '../types.ts';
import type { WrittenWater } from './readingInput.ts';
import { DAY_MS } from '../../units/calendar.ts';

const MINUTE_MS = 60_000;

/** Liquid surface water of a lake, degC. Common practice, no source; a little below 0 for a thermometer's own error. */
const WATER_C = { low: -0.5, high: 38 } as const;
/** Secchi depth of reservoirs, m. Common practice, no source. */
const CLARITY_M = { low: 0.03, high: 15 } as const;
/** How far two readings may lie apart: places and hours differ, and a lake moves. K and K/day; common practice, no source. */
const APART_K = 4;
const APART_K_PER_DAY = 0.7;
/** Oldest neighbour that can still speak against a reading, days. */
const NEIGHBOUR_DAYS = 14;
/** Water and the mean air of two weeks are rarely further apart, K. Common practice, no source. */
const FROM_AIR_K = 15;

const c = (value: number): string => `${value.toFixed(1)} °C`;

interface Neighbour {
  readonly atMs: number;
  readonly waterC: number;
}

function neighbours(reading: Reading, view: RecordView): Neighbour[] {
  const others = view.readings.flatMap(({ id, atMs, waterC, pocket }) =>
    waterC === undefined || id === reading.id || pocket !== reading.pocket ? [] : [{ atMs, waterC }],
  );
  const gauges =
    reading.pocket === undefined
      ? view.observations.flatMap((row) =>
          row.variable === 'water_temp' && row.kind === 'observed' && row.doubt === undefined
            ? [{ atMs: row.atMs, waterC: row.value }]
            : [],
        )
      : [];
  return [...others, ...gauges].filter(
    ({ atMs }) => Math.abs(atMs - reading.atMs) <= NEIGHBOUR_DAYS * DAY_MS,
  );
}

function allowedK(reading: Reading, neighbour: Neighbour): number {
  return APART_K + (APART_K_PER_DAY * Math.abs(reading.atMs - neighbour.atMs)) / DAY_MS;
}

function againstOthers(
  reading: Reading,
  waterC: number,
  view: RecordView,
  written: WrittenWater | undefined,
): string[] {
  const known = neighbours(reading, view);
  const agrees = (value: number): boolean =>
    known.some((other) => Math.abs(value - other.waterC) <= allowedK(reading, other));
  const nearest = [...known].sort(
    (a, b) => Math.abs(a.atMs - reading.atMs) - Math.abs(b.atMs - reading.atMs),
  )[0];
  if (nearest !== undefined) {
    if (agrees(waterC)) return [];
    const hint =
      written !== undefined && agrees(written.otherUnitC) ? ' In the other unit it would fit.' : '';
    return [
      `${c(waterC)} is against all other readings; the nearest in time says ${c(nearest.waterC)}.${hint}`,
    ];
  }
  const air = view.observations.filter(
    (row) =>
      row.variable === 'air_temp' &&
      row.kind !== 'forecast' &&
      row.doubt === undefined &&
      Math.abs(row.atMs - reading.atMs) <= NEIGHBOUR_DAYS * DAY_MS,
  );
  if (air.length === 0) return [];
  const meanC = air.reduce((sum, row) => sum + row.value, 0) / air.length;
  return Math.abs(waterC - meanC) > FROM_AIR_K
    ? [`${c(waterC)} is far from the mean air of these two weeks, ${c(meanC)}.`]
    : [];
}

/**
 * What to ask before a reading is stored; empty when nothing speaks against it. A doubtful reading is the angler's to
 * confirm, because it may be the first sign of something real.
 *
 * @param view the lake's record around the reading, at least 14 days
 * @param nowMs epoch ms
 * @param written how the temperature was given, to notice the other unit
 */
export function readingQuestions(
  reading: Reading,
  view: RecordView,
  nowMs: number,
  written?: WrittenWater,
): string[] {
  const questions: string[] = [];
  if (reading.atMs > nowMs + MINUTE_MS) questions.push('Its time is in the future.');
  if (reading.depthM > 60)
    questions.push(`${reading.depthM.toFixed(1)} m is very deep for a hand thermometer.`);
  const { waterC, clarityM } = reading;
  if (waterC !== undefined) {
    if (waterC < WATER_C.low || waterC > WATER_C.high) {
      const other = written?.otherUnitC;
      const hint =
        other !== undefined && other >= WATER_C.low && other <= WATER_C.high
          ? ' It looks like a number in the other unit.'
          : '';
      questions.push(`${written?.written ?? c(waterC)} is ${c(waterC)}, which lake water hardly has.${hint}`);
    } else questions.push(...againstOthers(reading, waterC, view, written));
  }
  if (clarityM !== undefined && (clarityM < CLARITY_M.low || clarityM > CLARITY_M.high))
    questions.push(`A clarity of ${clarityM.toFixed(2)} m is unusual: check its unit.`);
  return questions;
}
