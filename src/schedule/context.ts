/** What the way of the data stands on: configuration, record, rules, environment. */
import type { Config, RuleBook } from '../config/index.ts';
import type { RecordStore } from '../record/index.ts';
import type { HttpClient } from '../services/index.ts';

export interface PipelineContext {
  readonly config: Config;
  readonly record: RecordStore;
  readonly rules: RuleBook;
  readonly env: Readonly<Record<string, string | undefined>>;
  /** One line of progress; quiet in a pipe. */
  readonly onProgress?: (line: string) => void;
  /** As long-lived as the process; without it each refresh makes one of its own. */
  readonly client?: HttpClient;
}
