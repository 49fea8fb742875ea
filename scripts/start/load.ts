/**
 * Loads the scripts of the built program, each with the code that the engine made of it while the build ran it: reading and
 * translating them anew takes a fifth of a command's time, and Node 20 keeps such code for nobody. Code that another
 * version of the engine made, or the same one under other flags, is refused by the engine, which then makes its own.
 */
import { existsSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { setFlagsFromString } from 'node:v8';
import { Script } from 'node:vm';

/**
 * Bytes of bytecode that a function runs between two looks at whether it is hot; V8's own is 67,584 in Node 20. A command
 * runs for a second, in which the usual eagerness spends more on machine code than that code saves; what stays hot for tens
 * of milliseconds is translated all the same, so that a process that lives on loses nothing.
 */
const INTERRUPT_BUDGET = 3_000_000;

/** Where the code of a script is kept. */
export const codeOf = (path: string): string => path.replace(/\.js$/, '.code');

interface Loaded {
  readonly script: Script;
  readonly module: { exports: unknown };
}

/** What a script is called with, as Node calls one. */
type Body = (
  exports: unknown,
  require: (id: string) => unknown,
  module: Loaded['module'],
  filename: string,
  folder: string,
) => void;

/**
 * Starts the program.
 *
 * @param main its first script
 * @param loaded filled with all that it loads, by path
 */
export function start(main: string, loaded = new Map<string, Loaded>()): void {
  // Before any script: code is kept for the flags that it was made under.
  setFlagsFromString(`--interrupt-budget=${INTERRUPT_BUDGET}`);
  const installed = createRequire(main);
  const load = (path: string): unknown => {
    const known = loaded.get(path);
    if (known !== undefined) return known.module.exports;
    const kept = codeOf(path);
    const script = new Script(
      `(function (exports, require, module, __filename, __dirname) {${readFileSync(path, 'utf8')}\n})`,
      { filename: path, ...(existsSync(kept) ? { cachedData: readFileSync(kept) } : {}) },
    );
    const module = { exports: {} };
    loaded.set(path, { script, module });
    const folder = dirname(path);
    const body = script.runInThisContext() as Body;
    body(
      module.exports,
      (id) => (id.startsWith('.') ? load(join(folder, id)) : installed(id)),
      module,
      path,
      folder,
    );
    return module.exports;
  };
  load(main);
}
