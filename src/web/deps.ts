import type { Config, RuleBook } from '../config/index.ts';
import type { RecordStore } from '../record/index.ts';

export interface WebDeps {
  readonly config: Config;
  readonly record: RecordStore;
  readonly rules: RuleBook;
  /** Signs the links; the one that mail is signed with. */
  readonly secret: string;
  readonly now: () => number;
  /** Where the secret for bounce reports is looked up; the process's own environment when left out. */
  readonly env?: Readonly<Record<string, string | undefined>>;
  /** Least time of an answer that could tell who is known, ms; 250 when left out. */
  readonly answerMs?: number;
  /** Where a fault of the program itself is told, with the page as method and pattern; never to the visitor. */
  readonly onFault?: (error: unknown, page: string) => void;
  /** Origins under which the process is reached on its own machine, beside the public address. */
  readonly listensAt?: () => readonly string[];
}
