import {
  type Config,
  goneWords,
  loadRules,
  movedWords,
  type RuleBook,
  sortedThresholds,
  tuneRules,
} from '../config/index.ts';

/**
 * The shipped rules with what the configuration changes of them; a number that goes by another name is
 * told and taken, one they no longer have is told and left out.
 */
export function rulesOf(config: Pick<Config, 'thresholds'>, folder?: string): RuleBook {
  const rules = loadRules(folder);
  const { kept, gone, moved } = sortedThresholds(rules, config.thresholds);
  for (const one of moved) process.stderr.write(`${movedWords(one)}\n`);
  for (const key of gone) process.stderr.write(`${goneWords(key)}\n`);
  return tuneRules(rules, kept);
}
