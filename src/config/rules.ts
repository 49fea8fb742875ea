import { existsSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { z } from 'zod';
import { ThawlineError } from '../units/index.ts';
import { LANGUAGES, type Language } from '../vocabulary/index.ts';
import { builtRules, rulesDigest } from './builtRules.ts';
import { luresAsToday } from './luresBefore.ts';
import { lureBookSchema } from './rulesLures.ts';
import { hourRulesSchema, type HourRules } from './rulesHours.ts';
import { phaseRulesSchema, positionRulesSchema, type PhaseRules, type PositionRules } from './rulesPlaces.ts';
import { fishVerdictsSchema, type FishVerdicts } from './rulesFish.ts';
import { safetyRulesSchema } from './rulesSafety.ts';
import { positionsOfToday } from './rulesBefore.ts';
import { readRuleText, ruleTextOf, withRuleText, type RuleFile, type RuleText } from './ruleText.ts';
import { readYaml } from './yaml.ts';

/** All rules the advice is made from, read and checked. Plain data: pure rooms take it as an argument. */
export interface RuleBook {
  readonly positions: PositionRules;
  readonly phases: PhaseRules;
  readonly lures: z.infer<typeof lureBookSchema>;
  readonly safety: z.infer<typeof safetyRulesSchema>;
  readonly hours: HourRules;
  /** What sampled fish say of them; absent where the folder's own rules were not judged. */
  readonly fish?: FishVerdicts;
  /** Every sentence of the rules by its key (`config/rules/words.en.yaml`), a reader's own inline ones included. */
  readonly text: RuleText;
  /** The same by language: what a language's own file does not say is said in the first one. */
  readonly texts: Readonly<Record<Language, RuleText>>;
}

const LANGUAGE = LANGUAGES[0];

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

function hoursFile(folder: string): string {
  const own = join(folder, 'hours.yaml');
  return existsSync(own) ? own : join(shippedRules(), 'hours.yaml');
}

/**
 * Read and check the rules files, and put their words in.
 *
 * A rule says what it carries inline, else what the folder's own file of words has under its id, else what the
 * shipped one has.
 *
 * @param folder folder that holds positions.yaml, phases.yaml, lures.yaml, safety.yaml; default: the shipped rules.
 *   hours.yaml may be left out: a folder from before there was a plan takes the shipped one
 * @throws ThawlineError `config`, one line a problem with file, line, column, what was found and what is expected; a
 *   rule that has no sentence anywhere is one
 */
export function loadRules(folder: string = shippedRules()): RuleBook {
  return builtRules(folder) ?? readOnce(folder);
}

/** What this process read, by folder: checking 300 kB of YAML takes longer than a morning's advice. */
const alreadyRead = new Map<string, { readonly digest: string; readonly book: RuleBook }>();

/** The folder's rules, read anew only when a letter of them or of the shipped ones changed. */
function readOnce(folder: string): RuleBook {
  if (!existsSync(folder)) return readRules(folder);
  const digest = rulesDigest(folder) + rulesDigest(shippedRules());
  const before = alreadyRead.get(folder);
  if (before?.digest === digest) return before.book;
  const book = frozen(readRules(folder));
  alreadyRead.set(folder, { digest, book });
  return book;
}

/** Many hold the same book; who writes into it must not change it for the others. */
function frozen<T>(value: T): T {
  if (typeof value !== 'object' || value === null || Object.isFrozen(value)) return value;
  Object.values(value).forEach(frozen);
  return Object.freeze(value);
}

/** A language's own files of words, the folder's over the shipped; the first language stands in the rules already. */
const ownWords = (folder: string, language: Language): RuleText =>
  language === LANGUAGE
    ? {}
    : { ...readRuleText(shippedRules(), language), ...readRuleText(folder, language) };

function readRules(folder: string): RuleBook {
  const text = { ...readRuleText(shippedRules(), LANGUAGE), ...readRuleText(folder, LANGUAGE) };
  const read = <T>(name: RuleFile, schema: z.ZodType<T>): T =>
    readYaml(join(folder, `${name}.yaml`), schema, (written) =>
      withRuleText(name, name === 'positions' ? positionsOfToday(written) : luresAsToday(written), text),
    );
  const files = {
    positions: read('positions', positionRulesSchema),
    phases: read('phases', phaseRulesSchema),
    lures: read('lures', lureBookSchema),
    safety: read('safety', safetyRulesSchema),
    hours: readYaml(hoursFile(folder), hourRulesSchema),
  };
  const judged = join(folder, 'fish.yaml');
  const said = {
    ...ruleTextOf('positions', files.positions),
    ...ruleTextOf('phases', files.phases),
    ...ruleTextOf('lures', files.lures),
    ...ruleTextOf('safety', files.safety),
  };
  return {
    ...files,
    ...(existsSync(judged) && { fish: readYaml(judged, fishVerdictsSchema) }),
    text: said,
    texts: Object.fromEntries(
      LANGUAGES.map((language) => [language, { ...said, ...ownWords(folder, language) }]),
    ) as RuleBook['texts'],
  };
}
