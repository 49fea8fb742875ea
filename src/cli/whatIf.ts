import { readFileSync } from 'node:fs';
import type { Command } from 'commander';
import type { AdviceOptions } from '../advice/index.ts';
import {
  understand,
  unitsOfAnswer,
  varied,
  whatIfSchema,
  whatIfTemplate,
  type WhatIfForm,
} from '../advice/whatIf/index.ts';
import { type Config, loadConfig, parseYaml, type RuleBook } from '../config/index.ts';
import { whatIfAnswer } from '../schedule/index.ts';
import { expandQuantities, ThawlineError, type UnitSystem } from '../units/index.ts';
import { say, wordsFor } from '../words/index.ts';
// From its own file: the context opens records and services, which take longer to load than the answer to find.
import { configPath } from './configPath.ts';
import { rulesOf } from './rulesOf.ts';
import { jsonOf } from './whatIfJson.ts';
import { answerLines } from './whatIfLines.ts';
import { facesLine } from './whatIfFaces.ts';
import { whatIfText } from './whatIfText.ts';

interface Options {
  readonly format: string;
  readonly template?: boolean;
  readonly vary?: string;
  readonly rules?: string;
  readonly lines?: boolean;
}

/** A usual set of tackle, for a reader without a configuration. */
/** No configuration: the shipped numbers stand. */
const NO_CHANGES = { thresholds: {} };

const USUAL: AdviceOptions['tackle'] = { reels: [], linesKg: [], castLengthM: 22.9 };

function readForm(file: string): WhatIfForm {
  let text: string;
  try {
    text = readFileSync(file === '-' ? 0 : file, 'utf8');
  } catch (cause) {
    throw new ThawlineError(
      'usage',
      `${file}: cannot be read. Write one with "thawline what-if --template > conditions.yaml", or pass - and give it on standard input.`,
      { cause },
    );
  }
  try {
    return parseForm(text, file);
  } catch (error) {
    // The conditions are input of this command, no configuration.
    throw error instanceof ThawlineError && error.code === 'config'
      ? new ThawlineError('usage', error.message, { cause: error })
      : error;
  }
}

/** A file in which everything is still commented out is a form with nothing known. */
function parseForm(text: string, file: string): WhatIfForm {
  return parseYaml(
    text.split('\n').every((line) => /^\s*(?:#|$)/.test(line)) ? '{}' : text,
    file === '-' ? 'standard input' : file,
    whatIfSchema,
  );
}

function varyRows(form: WhatIfForm, text: string, rules: RuleBook, tackle: AdviceOptions['tackle']) {
  return varied(form, text).map((step) => {
    const { advice } = whatIfAnswer(step.form, rules, tackle);
    return {
      value: step.written,
      phase: advice.phase.leading,
      places: advice.positions.map(({ place, rank, total }) => ({ place, rank, total })),
    };
  });
}

/** Adds `thawline what-if`. */
export function addWhatIfCommand(program: Command): void {
  program
    .command('what-if')
    .description('advice for conditions you write down yourself (YAML or JSON)')
    .argument('[file]', 'conditions file, or - for standard input')
    .option('--format <format>', 'text or json', 'text')
    .option('--template', 'print a commented conditions file')
    .option('--vary <field=from..to>', 'how the ranking moves along one field, e.g. "water.main=42 F..58 F"')
    .option('--lines', 'one JSON object of conditions a line in, one answer a line out: for programs')
    .option('--rules <folder>', 'rules folder instead of the shipped one')
    .action((file: string | undefined, options: Options, command: Command) => {
      // A configuration that is named gives its own tackle and changed thresholds; without one the shipped rules hold.
      const path = configPath(command);
      const answered = (config: Config | null): Promise<void> | undefined => {
        if (options.lines === true) {
          const rules = rulesOf(config ?? NO_CHANGES, options.rules);
          return answerLines(file, rules, config?.tackle ?? USUAL);
        }
        process.stdout.write(run(file, options, config));
        return undefined;
      };
      return path === undefined ? answered(null) : loadConfig(path).then(answered);
    });
}

function run(file: string | undefined, options: Options, config: Config | null): string {
  if (options.template === true) return whatIfTemplate();
  if (file === undefined) {
    throw new ThawlineError(
      'usage',
      'what-if needs a conditions file. Write one with "thawline what-if --template > conditions.yaml", or pass - for standard input.',
    );
  }
  if (options.format !== 'text' && options.format !== 'json') {
    throw new ThawlineError('usage', `--format: found "${options.format}", expected text or json.`);
  }
  const form = readForm(file);
  const rules = rulesOf(config ?? NO_CHANGES, options.rules);
  const tackle = config?.tackle ?? USUAL;
  const units = unitsOfAnswer(form);
  if (options.vary !== undefined) {
    const rows = varyRows(form, options.vary, rules, tackle);
    if (options.format === 'json') return `${JSON.stringify(rows, null, 2)}\n`;
    return varyText(rows) + assumed(form, units);
  }
  const answered = whatIfAnswer(form, rules, tackle);
  const wind = facesLine(form, answered.understood, rules.text);
  if (options.format === 'json') {
    return `${JSON.stringify(jsonOf(answered, rules.text, units, wind), null, 2)}\n`;
  }
  return expandQuantities(whatIfText(answered.advice, answered.understood, rules.text, wind), units);
}

/** What the rows rest on besides what was written. */
function assumed(form: WhatIfForm, units: UnitSystem): string {
  const date =
    form.date === undefined
      ? [
          'No date was given, so the season is open: day length is not known, and rules that need it are silent.',
        ]
      : [];
  const { assumed: words } = wordsFor('en').whatIf;
  return [...date, ...understand(form).assumptions.map((fact) => say(words, fact))]
    .map((text) => `  assumed: ${expandQuantities(text, units)}\n`)
    .join('');
}

function varyText(rows: ReturnType<typeof varyRows>): string {
  let before = '';
  const lines = rows.map((row) => {
    const first = row.places[0]?.place ?? '';
    const mark = before !== '' && first !== before ? '*' : ' ';
    before = first;
    const places = row.places.slice(0, 4).map(({ place, total }) => `${place} ${total.toFixed(1)}`);
    return `${mark} ${row.value.padEnd(12)} ${row.phase.padEnd(15)} ${places.join(', ')}`;
  });
  return `  value        phase           first places (points; * = the first place changed)\n${lines.join('\n')}\n`;
}
