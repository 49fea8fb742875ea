/** What a reading does to the estimates, said before and after. */
import type { LakeConfig } from '../config/index.ts';
import type { Reading, RecordView } from '../record/index.ts';
import { estimateWaters, THANKS_DAYS } from '../signals/index.ts';
import { DAY_MS } from '../units/time/index.ts';
import { expandQuantities, formatQuantity } from '../units/index.ts';
import { READING_LIMIT_DAYS } from '../water/clarity/index.ts';
import { say, wordsFor } from '../words/index.ts';

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
  const ageDays = (nowMs - reading.atMs) / DAY_MS;
  const pocket = lake.pockets.find(({ id }) => id === reading.pocket);
  if (reading.waterC === undefined)
    return pocket
      ? {
          doubt: null,
          sentences: [
            'It is kept, but the briefing tells the clarity of the main arm, which it does not change.',
          ],
        }
      : ageDays > READING_LIMIT_DAYS
        ? { doubt: null, sentences: ['It is kept, but too old to tell today’s clarity.'] }
        : later;
  const others = view.readings.filter(({ id }) => id !== reading.id);
  const known = [...others, reading].sort((a, b) => a.atMs - b.atMs);
  const before = estimateWaters({ ...view, readings: others }, lake);
  const after = estimateWaters({ ...view, readings: known }, lake);
  const of = (estimates: typeof before): number | undefined =>
    pocket ? estimates.pockets.find(({ id }) => id === pocket.id)?.surfaceC : (estimates.mainC ?? undefined);
  const [was, is] = [of(before), of(after)];
  const refusal = after.refused.find(({ id }) => id === reading.id);
  const reason = refusal ? expandQuantities(say(wordsFor('en').water.refusal, refusal.reason), 'metric') : '';
  const doubt = refusal?.kind === 'improbable' ? reason : null;
  const movesNothing = `It moves nothing: ${lowerFirst(reason)}`;
  if (was === undefined || is === undefined) return refusal ? { doubt, sentences: [movesNothing] } : later;
  const isMoved = Math.abs(is - was) >= PRINTS_APART_K;
  const what = pocket ? `The estimate of ${pocket.name} at this hour` : 'The estimate of the main lake today';
  const effect = isMoved ? `moved from ${both(was)} to ${both(is)}.` : `stays at ${both(is)}.`;
  if (refusal) return { doubt, sentences: [isMoved ? `${what} ${effect} ${reason}` : movesNothing] };
  if (ageDays <= THANKS_DAYS) return { doubt, sentences: [`${what} ${effect} Thank you.`] };
  return {
    doubt,
    sentences: [
      isMoved ? `${what} ${effect}` : `It is kept, but too old to move today’s estimate of ${both(is)}.`,
    ],
  };
}

const lowerFirst = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1);
