import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Command } from 'commander';
import { afterEach, beforeEach, vi } from 'vitest';
import { addHindcastCommand } from '../../src/cli/hindcast.ts';
import { ThawlineError } from '../../src/units/index.ts';

export interface HindcastBench {
  /** Folder of the test at hand. */
  readonly folder: () => string;
  /** Writes a file into it and gives back its path. */
  readonly file: (name: string, content: string) => string;
  /** Runs the command on a lake at 36 degrees, 8 m deep, unless told; gives back the path of the estimates. */
  readonly hindcast: (...flags: string[]) => string;
  readonly printed: () => string;
}

/** A folder and a captured standard output for each test of the caller's file. */
export function hindcastBench(): HindcastBench {
  let folder = '';
  let printed = '';
  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), 'hindcast-'));
    printed = '';
    vi.spyOn(process.stdout, 'write').mockImplementation((text) => ((printed += String(text)), true));
  });
  afterEach(() => {
    vi.restoreAllMocks();
    rmSync(folder, { recursive: true });
  });
  return {
    folder: () => folder,
    file: (name, content) => {
      const path = join(folder, name);
      writeFileSync(path, content);
      return path;
    },
    hindcast: (...flags) => {
      const program = new Command().exitOverride();
      addHindcastCommand(program);
      const out = join(folder, 'out.csv');
      program.parse(['hindcast', '--lat', '36', '--mean-depth', '8', '--area', '5', '--out', out, ...flags], {
        from: 'user',
      });
      return out;
    },
    printed: () => printed,
  };
}

/** The error that a call ends with. */
export function failure(run: () => unknown): ThawlineError {
  try {
    run();
  } catch (error) {
    if (error instanceof ThawlineError) return error;
    throw error;
  }
  throw new Error('It should have failed.');
}
