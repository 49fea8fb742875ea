/** A command run in this process: the same commander, the same errors, what it says caught. For exit codes of the whole, see tests/cli/main.test.ts. */
import { Command } from 'commander';
import { vi } from 'vitest';
import { ThawlineError } from '../../src/units/index.ts';

export interface Said {
  /** Exit code that main.ts makes of it. */
  readonly code: number;
  readonly out: string;
  /** Sentence of the error, '' when there was none. */
  readonly err: string;
}

/** @param words as they stand behind `thawline` */
export async function commandLine(add: (root: Command) => void, ...words: string[]): Promise<Said> {
  const root = new Command('thawline').option('--config <file>').exitOverride();
  root.configureOutput({ writeErr: () => undefined });
  add(root);
  for (const command of root.commands) command.exitOverride();
  let out = '';
  const caught = (chunk: unknown): boolean => {
    out += String(chunk);
    return true;
  };
  const spies = [
    vi.spyOn(process.stdout, 'write').mockImplementation(caught),
    vi.spyOn(console, 'log').mockImplementation((...line: unknown[]) => void caught(`${line.join(' ')}\n`)),
  ];
  const before = process.exitCode;
  process.exitCode = undefined;
  try {
    await root.parseAsync(words, { from: 'user' });
    return { code: process.exitCode ?? 0, out, err: '' };
  } catch (error) {
    if (error instanceof ThawlineError) return { code: error.exitCode, out, err: error.message };
    if (error instanceof Error && 'exitCode' in error) return { code: 2, out, err: error.message };
    throw error;
  } finally {
    process.exitCode = before;
    for (const spy of spies) spy.mockRestore();
  }
}
