/** What every page behind a reader's own link asks: which lake is meant, and what speaks against a reading there. */
import type { LakeConfig } from '../config/index.ts';
import { refuseStranger } from '../schedule/outings/index.ts';
import { DAY_MS } from '../units/time/index.ts';
import type { Reader } from '../delivery/index.ts';
import { readingQuestions, type Reading, type ReadingQuestion, type WrittenWater } from '../record/index.ts';
import { ThawlineError } from '../units/index.ts';
import type { LakeRefusal } from '../words/index.ts';
import type { WebDeps } from './deps.ts';

/** Record that is read back for what speaks against a reading, days. */
const QUESTION_DAYS = 30;

/** The lake that is meant, where the reader has it. @throws ThawlineError `usage` */
export function lakeOfReader({ config }: WebDeps, id: string, reader: Reader): LakeConfig {
  const lake = config.lakes.find((one) => one.id === id);
  if (lake === undefined)
    throw new ThawlineError('usage', 'There is no such lake here. Open the link from the newest mail.', {
      fact: { code: 'lake.none' } satisfies LakeRefusal,
    });
  refuseStranger(lake, reader);
  return lake;
}

/** What to ask before a reading is kept. */
export async function questionsOf(
  { record, now }: WebDeps,
  reading: Reading,
  written?: WrittenWater,
): Promise<ReadingQuestion[]> {
  const nowMs = now();
  const days = Math.ceil((nowMs - reading.atMs) / DAY_MS) + QUESTION_DAYS;
  return readingQuestions(reading, await record.view(reading.lake, nowMs, { days }), nowMs, written);
}
