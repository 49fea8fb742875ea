// Plugin of Stryker, loaded by its own processes (hence plain JavaScript): lets only the drawn mutants run. Ranges alone
// would let through whatever else begins and ends within a drawn one.
import { readFileSync } from 'node:fs';
import { relative } from 'node:path';
import { declareClassPlugin, PluginKind } from '@stryker-mutator/api/plugin';
import { CheckStatus } from '@stryker-mutator/api/check';

class OnlySampled {
  async init() {
    this.drawn = new Set(JSON.parse(readFileSync(process.env.THAWLINE_MUTANTS, 'utf8')));
  }

  async check(mutants) {
    return Object.fromEntries(mutants.map((mutant) => [mutant.id, this.#verdict(mutant)]));
  }

  #verdict(mutant) {
    return this.drawn.has(keyOf(mutant))
      ? { status: CheckStatus.Passed }
      : { status: CheckStatus.CompileError, reason: 'not drawn' };
  }

  group(mutants) {
    return Promise.resolve([mutants.map(({ id }) => id)]);
  }
}

/** The same as `keyOf` in `sample.ts`. */
function keyOf({ fileName, mutatorName, replacement, location: { start, end } }) {
  const at = [start.line, start.column, end.line, end.column].join(':');
  return [relative('.', fileName), mutatorName, at, replacement].join('|');
}

export const strykerPlugins = [declareClassPlugin(PluginKind.Checker, 'sampled', OnlySampled)];
