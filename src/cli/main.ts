#!/usr/bin/env node
/** The command line: one file a command; this one only wires them and turns errors into exit codes. */
import { readFileSync } from 'node:fs';
import { Command, CommanderError } from 'commander';
import { EXIT, ThawlineError } from '../units/index.ts';
import { addBriefCommand } from './brief.ts';
import { addCheckCommand } from './check.ts';
import { addDemoCommand } from './demo.ts';
import { addHindcastCommand } from './hindcast.ts';
import { addPreviewCommand } from './preview.ts';
import { addReadersCommands } from './readers.ts';
import { addReadingCommands } from './reading.ts';
import { addRecordCommands } from './record.ts';
import { addRunCommand } from './run.ts';
import { addSendCommand } from './send.ts';
import { addStatusCommand } from './status.ts';
import { addWebCommand } from './web.ts';
import { addWhatIfCommand } from './whatIf.ts';
import { shipped } from './paths.ts';

function program(): Command {
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
  addDemoCommand(root);
  addBriefCommand(root);
  addSendCommand(root);
  addRunCommand(root);
  addStatusCommand(root);
  addReadersCommands(root);
  addWebCommand(root);
  addPreviewCommand(root);
  addWhatIfCommand(root);
  addReadingCommands(root);
  addRecordCommands(root);
  addHindcastCommand(root);
  addCheckCommand(root);
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

try {
  await program().parseAsync(process.argv);
} catch (error) {
  process.exitCode = report(error);
}
