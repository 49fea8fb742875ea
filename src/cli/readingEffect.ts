/** What a reading does to the estimates, said before and after. */
import type { LakeConfig } from '../config/index.ts';
import type { Reading, RecordView } from '../record/index.ts';
import { estimateWaters } from '../signals/index.ts';
import { expandQuantities, formatQuantity } from '../units/index.ts';

export interface ReadingEffect {
  /** Why the models would not believe it, to ask about before it is stored; null when they do or cannot say. */
  readonly doubt: string | null;
  /** What to tell once it is stored. */
  readonly sentences: readonly string[];
}

/** Two temperatures this far apart print as different ones in degrees C, K. */
const PRINTS_APART_K = 0.1;

const both = (tempC: number): string =>
  `${formatQuantity(tempC, 'temperature', 'metric')} (${formatQuantity(tempC, 'temperature', 'us')})`;

/**
 * Estimates with and without a reading, as of now.
 *
 * @param view the lake's record up to now and up to the reading, with or without it
 * @param nowMs epoch ms
 */
export function readingEffect(
  reading: Reading,
  view: RecordView,
  lake: LakeConfig,
  nowMs: number,
): ReadingEffect {
  const later = { doubt: null, sentences: ['The next briefing will use it.'] };
  if (reading.atMs > nowMs) return later;
  const pocket = lake.pockets.find(({ id }) => id === reading.pocket);
  if (reading.waterC === undefined)
    return pocket
      ? {
          doubt: null,
          sentences: [
            'It is kept, but the briefing tells the clarity of the main arm, which it does not change.',
          ],
        }
      : later;
  const others = view.readings.filter(({ id }) => id !== reading.id);
  const known = [...others, reading].sort((a, b) => a.atMs - b.atMs);
  const before = estimateWaters({ ...view, readings: others }, lake);
  const after = estimateWaters({ ...view, readings: known }, lake);
  const refusal = after.refused.find(({ id }) => id === reading.id);
  if (refusal) {
    const reason = expandQuantities(refusal.reason, 'metric');
    return {
      doubt: refusal.kind === 'improbable' ? reason : null,
      sentences: [`It moves nothing: ${lowerFirst(reason)}`],
    };
  }
  const of = (estimates: typeof before): number | undefined =>
    pocket ? estimates.pockets.find(({ id }) => id === pocket.id)?.surfaceC : (estimates.mainC ?? undefined);
  const [was, is] = [of(before), of(after)];
  if (was === undefined || is === undefined) return later;
  const what = pocket ? `The estimate of ${pocket.name} at this hour` : 'The estimate of the main lake today';
  const effect =
    Math.abs(is - was) < PRINTS_APART_K
      ? `stays at ${both(is)}: the reading agrees with it.`
      : `moved from ${both(was)} to ${both(is)}.`;
  return { doubt: null, sentences: [`${what} ${effect} Thank you.`] };
}

const lowerFirst = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1);
