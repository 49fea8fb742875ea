import type { Reading, RecordView } from '../types.ts';
import type { WrittenWater } from './readingInput.ts';
import { DAY_MS } from '../../units/time/index.ts';

const MINUTE_MS = 60_000;

/** Liquid surface water of a lake, degC. Common practice, no source; a little below 0 for a thermometer's own error. */
const WATER_C = { low: -0.5, high: 38 } as const;
const isLakeWater = (waterC: number): boolean => waterC >= WATER_C.low && waterC <= WATER_C.high;
/** Deepest a thermometer in the hand is let down, m. Common practice, no source. */
const HAND_DEPTH_M = 60;
/** Secchi depth of reservoirs, m. Common practice, no source. */
const CLARITY_M = { low: 0.03, high: 15 } as const;
/** How far two readings may lie apart: places and hours differ, and a lake moves. K and K/day; common practice, no source. */
const APART_K = 4;
const APART_K_PER_DAY = 0.7;
/** Oldest neighbour that can still speak against a reading, days. */
const NEIGHBOUR_DAYS = 14;
/** Water and the mean air of two weeks are rarely further apart, K. Common practice, no source. */
const FROM_AIR_K = 15;

/** What speaks against a reading, SI; worded by who asks. */
export type ReadingQuestion =
  | { readonly code: 'inFuture' }
  | { readonly code: 'veryDeep'; readonly depthM: number }
  | {
      readonly code: 'notLakeWater';
      readonly waterC: number;
      /** As the reader wrote it; null where that is not known. */
      readonly written: string | null;
      readonly otherUnitFits: boolean;
    }
  | {
      readonly code: 'againstOthers';
      readonly waterC: number;
      readonly nearestC: number;
      readonly otherUnitFits: boolean;
    }
  | { readonly code: 'farFromAir'; readonly waterC: number; readonly meanC: number }
  | { readonly code: 'oddClarity'; readonly clarityM: number };

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
): ReadingQuestion[] {
  const known = neighbours(reading, view);
  const agrees = (value: number): boolean =>
    known.some((other) => Math.abs(value - other.waterC) <= allowedK(reading, other));
  const nearest = [...known].sort(
    (a, b) => Math.abs(a.atMs - reading.atMs) - Math.abs(b.atMs - reading.atMs),
  )[0];
  if (nearest !== undefined) {
    if (agrees(waterC)) return [];
    const otherUnitFits = written !== undefined && agrees(written.otherUnitC);
    return [{ code: 'againstOthers', waterC, nearestC: nearest.waterC, otherUnitFits }];
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
  return Math.abs(waterC - meanC) > FROM_AIR_K ? [{ code: 'farFromAir', waterC, meanC }] : [];
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
): ReadingQuestion[] {
  const questions: ReadingQuestion[] = [];
  if (reading.atMs > nowMs + MINUTE_MS) questions.push({ code: 'inFuture' });
  if (reading.depthM > HAND_DEPTH_M) questions.push({ code: 'veryDeep', depthM: reading.depthM });
  const { waterC, clarityM } = reading;
  if (waterC !== undefined) {
    if (isLakeWater(waterC)) questions.push(...againstOthers(reading, waterC, view, written));
    else
      questions.push({
        code: 'notLakeWater',
        waterC,
        written: written?.written ?? null,
        otherUnitFits: written !== undefined && isLakeWater(written.otherUnitC),
      });
  }
  if (clarityM !== undefined && (clarityM < CLARITY_M.low || clarityM > CLARITY_M.high))
    questions.push({ code: 'oddClarity', clarityM });
  return questions;
}
