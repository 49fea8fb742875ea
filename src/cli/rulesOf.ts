import type { Config } from '../config/index.ts';
import { loadRules, type RuleBook } from '../config/rules.ts';
import { goneWords, sortedThresholds, tuneRules } from '../config/tune.ts';

/** The shipped rules with what the configuration changes of them; a number they no longer have is told and left out. */
export function rulesOf(config: Pick<Config, 'thresholds'>, folder?: string): RuleBook {
  const rules = loadRules(folder);
  const { kept, gone } = sortedThresholds(rules, config.thresholds);
  for (const key of gone) process.stderr.write(`${goneWords(key)}\n`);
  return tuneRules(rules, kept);
}
