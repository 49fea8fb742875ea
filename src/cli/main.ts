/** The command line: one file a command; this one only wires them and turns errors into exit codes. */
import { readFileSync } from 'node:fs';
import { Command, CommanderError } from 'commander';
import { EXIT, ThawlineError } from '../units/index.ts';
import { COMMANDS } from './commands.ts';
import { watchOutputs } from './cutOutput.ts';
import { operand } from './operand.ts';
import { shipped } from './paths.ts';

/** Commands that speak of all the others. */
const OF_ALL: ReadonlySet<string> = new Set(['completion', 'man']);

/** The command that the words name; undefined where they name none, so that help and complaints know all of them. */
function commandNamed(words: readonly string[]): string | undefined {
  const operands = words.filter((word, i) => !word.startsWith('-') && words[i - 1] !== '--config');
  const name = operands[0] === 'help' ? operands[1] : operands[0];
  return name !== undefined && Object.hasOwn(COMMANDS, name) ? name : undefined;
}

async function program(words: readonly string[]): Promise<Command> {
  const { version, description } = JSON.parse(readFileSync(shipped('package.json'), 'utf8')) as {
    version: string;
    description: string;
  };
  const root = new Command('thawline')
    .description(description)
    .version(version)
    .option('--config <file>', 'configuration (default: $THAWLINE_CONFIG, else config/thawline.yaml)')
    .showHelpAfterError('(thawline --help lists the commands)')
    .configureHelp({ showGlobalOptions: true })
    .exitOverride();
  const named = commandNamed(words);
  if (named !== undefined) {
    for (const [name, { load }] of Object.entries(COMMANDS))
      if (named === name || OF_ALL.has(named)) (await load())(root);
    return root;
  }
  // The list of commands is told from the table: loading all of them takes twenty times as long.
  for (const [name, { says }] of Object.entries(COMMANDS)) root.command(name).description(says);
  root.configureHelp({
    showGlobalOptions: true,
    subcommandTerm: (command) => COMMANDS[command.name()]?.term ?? 'help [command]',
  });
  return root;
}

/** Exit code of a failed command, after one clear sentence on the error channel. */
function report(error: unknown): number {
  if (error instanceof CommanderError) return error.exitCode === 0 ? EXIT.ok : EXIT.usage;
  if (error instanceof ThawlineError) {
    process.stderr.write(`thawline: ${error.message}\n`);
    return error.exitCode;
  }
  process.stderr.write(
    `thawline: a fault of the program itself: ${error instanceof Error ? (error.stack ?? error.message) : String(error)}\n`,
  );
  return EXIT.failure;
}

let cut: number | null = null;
watchOutputs((error) => (cut = report(error)));
// Last of all: what a command finds after its output was cut stays its own verdict.
process.on('exit', (code) => {
  if (cut !== null && code === EXIT.ok) process.exitCode = cut;
});

const words = process.argv.slice(2).map(operand);
program(words)
  .then((root) => root.parseAsync(words, { from: 'user' }))
  .catch((error: unknown) => {
    process.exitCode = report(error);
  });
