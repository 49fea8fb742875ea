/** What every command opens first: configuration, rules, record; and closes last. */
import type { Command } from 'commander';
import { loadConfig, type Config } from '../config/index.ts';
import { keepShapes, keptShapes, openRecord } from '../record/index.ts';
import { clientFor, type PipelineContext } from '../schedule/index.ts';
import { ThawlineError } from '../units/index.ts';
import { configPath } from './configPath.ts';
import { progress } from './output.ts';
import { rulesOf } from './rulesOf.ts';

export { configPath };

/** The configuration, with shapes that its record has kept. */
export const configWithShapes = (path: string | undefined): Promise<Config> => loadConfig(path, keptShapes);

/** Runs `work` with an open record and closes it whatever happens. */
export async function withContext<T>(
  command: Command,
  work: (ctx: PipelineContext) => Promise<T>,
): Promise<T> {
  return withConfig(await configWithShapes(configPath(command)), work);
}

/** One record and one HTTP client for the whole of the work: budgets and rests of services outlive a refresh. */
export async function withConfig<T>(config: Config, work: (ctx: PipelineContext) => Promise<T>): Promise<T> {
  const rules = rulesOf(config);
  const record = await openRecord(config.recordPath);
  const client = clientFor(config, record);
  const onProgress = progress();
  const more = onProgress ? { onProgress } : {};
  try {
    await keepShapes(record, config.made ?? []);
    return await work({ config, record, rules, env: process.env, client, ...more });
  } finally {
    await client.close();
    await record.close();
  }
}

/** An instant with its zone, as `--as-of` takes it. @throws ThawlineError `usage` */
export function parseInstant(text: string | undefined, nowMs: number): number {
  if (text === undefined) return nowMs;
  const atMs = text.includes('T') && /(?:Z|[+-]\d\d:?\d\d)$/.test(text) ? Date.parse(text) : NaN;
  if (Number.isNaN(atMs)) {
    throw new ThawlineError(
      'usage',
      `--as-of: found "${text}", expected an instant with its zone, for example 2026-03-06T05:15:00-06:00 or 2026-03-06T11:15:00Z.`,
    );
  }
  return atMs;
}
