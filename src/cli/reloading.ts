/** Taking up a changed configuration while running: by SIGHUP, asked for by `thawline reload`. */
import type { Config } from '../config/index.ts';
import { configWithShapes } from './context.ts';
import { getState, putState } from '../record/schedule/index.ts';
import type { DeliveryRecord } from '../record/index.ts';
import { ThawlineError } from '../units/index.ts';
import * as z from 'zod';

const KEY = 'reload';
const answerSchema = z.object({ atMs: z.number(), problem: z.string() });
export type ReloadAnswer = z.output<typeof answerSchema>;

/** The new configuration, or why the old one stays. */
export async function reloaded(path: string): Promise<Config | { readonly problem: string }> {
  try {
    return await configWithShapes(path);
  } catch (error) {
    return { problem: error instanceof ThawlineError ? error.message : 'The file could not be read.' };
  }
}

export const noteReload = (record: DeliveryRecord, problem: string, nowMs: number): Promise<void> =>
  putState(record, KEY, { atMs: nowMs, problem }, nowMs);

/** What a running process said to the last request; undefined while none has said anything since the instant. */
export async function reloadAnswer(
  record: DeliveryRecord,
  sinceMs: number,
): Promise<ReloadAnswer | undefined> {
  const read = answerSchema.safeParse(await getState(record, KEY));
  return read.success && read.data.atMs >= sinceMs ? read.data : undefined;
}
