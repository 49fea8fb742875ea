import { createReadStream } from 'node:fs';
import { createInterface } from 'node:readline';
import type { AdviceOptions } from '../advice/index.ts';
import { unitsOfAnswer, whatIfSchema } from '../advice/whatIf/index.ts';
import { problemWords, type RuleBook } from '../config/index.ts';
import { whatIfAnswer } from '../schedule/index.ts';
import { EXIT, ThawlineError } from '../units/index.ts';
import { wrote } from './cutOutput.ts';
import { facesLine } from './whatIfFaces.ts';
import { jsonOf } from './whatIfJson.ts';

/** Answer to one line of conditions, or what is wrong with it. */
function answerTo(line: string, rules: RuleBook, tackle: AdviceOptions['tackle']): unknown {
  let given: unknown;
  try {
    given = JSON.parse(line);
  } catch (cause) {
    const said = cause instanceof Error ? cause.message : String(cause);
    throw new ThawlineError('usage', `expected one JSON object of conditions a line (${said})`);
  }
  const form = whatIfSchema.safeParse(given);
  if (!form.success) {
    const said = form.error.issues.map(
      (issue) => `${issue.path.join('.')}: ${problemWords(issue, given, whatIfSchema)}`,
    );
    throw new ThawlineError('usage', said.join('; '));
  }
  const { hours, fishing, sun } = form.data;
  // A day of which no hour is told differs by its light alone: for programs that ask a million times it is not planned.
  const byTheHour = hours !== undefined || fishing !== undefined || sun !== undefined;
  const answered = whatIfAnswer(form.data, rules, tackle, byTheHour);
  const wind = facesLine(form.data, answered.understood, rules.text);
  return jsonOf(answered, rules.text, unitsOfAnswer(form.data), wind);
}

/**
 * Reads one JSON object of conditions a line and writes one answer a line, in the same order: for programs. A line that
 * gives no `hours`, `fishing` or `sun` is answered without a plan; one that cannot be answered gets `{ "line": n, "error": "..." }` in its place, and the exit code tells of it.
 *
 * @param file path, or `-` or nothing for standard input
 */
export async function answerLines(
  file: string | undefined,
  rules: RuleBook,
  tackle: AdviceOptions['tackle'],
): Promise<void> {
  const input = file === undefined || file === '-' ? process.stdin : createReadStream(file, 'utf8');
  let number = 0;
  for await (const line of createInterface({ input, crlfDelay: Infinity })) {
    number += 1;
    if (line.trim() === '') continue;
    let answered: unknown;
    try {
      answered = answerTo(line, rules, tackle);
    } catch (cause) {
      if (!(cause instanceof ThawlineError)) throw cause;
      answered = { line: number, error: cause.message };
      process.exitCode = EXIT.usage;
    }
    if (!(await wrote(`${JSON.stringify(answered)}\n`))) break;
  }
  // Nobody reads the answers any more: whoever still asks need not be waited for.
  input.destroy();
}
