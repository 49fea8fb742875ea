/** Prints the shipped rules, read and checked, for the build to keep: see `src/config/builtRules.ts`. */
import { rulesDigest } from '../src/config/builtRules.ts';
import { loadRules } from '../src/config/rules.ts';

process.stdout.write(
  JSON.stringify({ digest: rulesDigest('config/rules'), book: loadRules('config/rules') }),
);
