import { existsSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { z } from 'zod';
import { ThawlineError } from '../units/index.ts';
import { lureBookSchema } from './rulesLures.ts';
import { phaseRulesSchema, positionRulesSchema, type PhaseRules, type PositionRules } from './rulesPlaces.ts';
import { safetyRulesSchema } from './rulesSafety.ts';
import { readYaml } from './yaml.ts';

/** All rules the advice is made from, read and checked. Plain data: pure rooms take it as an argument. */
export interface RuleBook {
  readonly positions: PositionRules;
  readonly phases: PhaseRules;
  readonly lures: z.infer<typeof lureBookSchema>;
  readonly safety: z.infer<typeof safetyRulesSchema>;
}

/** The shipped rules: `config/rules` beside the nearest package.json above this file. */
function shippedRules(): string {
  let folder = dirname(fileURLToPath(import.meta.url));
  while (!existsSync(join(folder, 'package.json'))) {
    const parent = dirname(folder);
    if (parent === folder) {
      throw new ThawlineError(
        'config',
        'The folder config/rules that belongs to the program was not found. Install the program again, or name a rules folder.',
      );
    }
    folder = parent;
  }
  return join(folder, 'config', 'rules');
}

/**
 * Read and check the four rules files.
 *
 * @param folder folder that holds positions.yaml, phases.yaml, lures.yaml, safety.yaml; default: the shipped rules
 * @throws ThawlineError `config`, one line a problem with file, line, column, what was found and what is expected
 */
export function loadRules(folder: string = shippedRules()): RuleBook {
  return {
    positions: readYaml(join(folder, 'positions.yaml'), positionRulesSchema),
    phases: readYaml(join(folder, 'phases.yaml'), phaseRulesSchema),
    lures: readYaml(join(folder, 'lures.yaml'), lureBookSchema),
    safety: readYaml(join(folder, 'safety.yaml'), safetyRulesSchema),
  };
}
