import type { Command } from 'commander';
import { lakeById, loadConfig, type Config, type LakeConfig } from '../config/index.ts';
import { openRecord, type RecordStore } from '../record/index.ts';
import { configPath } from './configPath.ts';

/** Opens the record of a configuration that is read already, for who checks what was typed before anything is opened. */
export async function withOpen<T>(
  { recordPath }: Config,
  work: (record: RecordStore) => Promise<T>,
): Promise<T> {
  const record = await openRecord(recordPath);
  try {
    return await work(record);
  } finally {
    await record.close();
  }
}

/**
 * Opens the configured record for one command and closes it whatever happens.
 *
 * @param path of the configuration; left out: where it is looked for
 */
export async function withRecord<T>(
  path: string | undefined,
  work: (record: RecordStore, config: Config) => Promise<T>,
): Promise<T> {
  const config = await loadConfig(path);
  return withOpen(config, (record) => work(record, config));
}

/**
 * The same for one lake; one that is not configured is refused before the record is opened.
 *
 * @throws ThawlineError `usage` for a lake that is not configured
 */
export async function withLake<T>(
  command: Command,
  lakeId: string,
  work: (record: RecordStore, lake: LakeConfig) => Promise<T>,
): Promise<T> {
  const config = await loadConfig(configPath(command));
  const lake = lakeById(config, lakeId);
  return withOpen(config, (record) => work(record, lake));
}
