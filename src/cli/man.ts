import type { Command } from 'commander';
import { EXIT } from '../units/index.ts';
import { commandTree, flattened, optionWords, type CommandNode } from './commandTree.ts';
import { say } from './output.ts';

/** Text of a manual page: a dot or an apostrophe at the start of a line and backslashes mean something there. */
const roff = (text: string): string =>
  text
    .replaceAll('\\', '\\e')
    .replaceAll('-', '\\-')
    .replace(/^(?=[.'])/gm, '\\&');

const EXIT_WORDS: Readonly<Record<keyof typeof EXIT, string>> = {
  ok: 'done',
  failure: 'a fault of the program, or something that needs you (status)',
  usage: 'a wrong command or wrong input',
  config: 'the configuration',
  record: 'the record',
  service: 'a service',
  mail: 'mail that did not reach everybody',
};

function commandPart(node: CommandNode): string[] {
  const options = node.options.flatMap((option) => [
    '.TP',
    `\\fB${roff(option.flags)}\\fR`,
    roff(optionWords(option)),
  ]);
  return [`.SS "${roff(`thawline ${node.path} ${node.usage}`.trim())}"`, roff(node.description), ...options];
}

/** The manual page, section 1, as roff (man macros). */
export function manPage(root: CommandNode, version: string): string {
  const commands = flattened(root).filter(({ path, children }) => path !== '' && children.length === 0);
  const lines = [
    `.TH THAWLINE 1 "" "thawline ${version}" "User Commands"`,
    '.SH NAME',
    'thawline \\- daily conditions briefing for black\\-bass anglers on reservoirs',
    '.SH SYNOPSIS',
    '.B thawline',
    '[\\fB\\-\\-config\\fR \\fIfile\\fR] \\fIcommand\\fR [\\fIoptions\\fR]',
    '.SH DESCRIPTION',
    roff(root.description),
    '.SH COMMANDS',
    ...commands.flatMap(commandPart),
    '.SH FILES',
    '.TP',
    '\\fIconfig/thawline.yaml\\fR',
    roff('The configuration, unless --config or $THAWLINE_CONFIG names another.'),
    '.SH "EXIT STATUS"',
    ...Object.entries(EXIT).flatMap(([name, code]) => [
      '.TP',
      `.B ${code}`,
      roff(EXIT_WORDS[name as keyof typeof EXIT]),
    ]),
  ];
  return `${lines.join('\n')}\n`;
}

export function addManCommand(program: Command): void {
  program
    .command('man')
    .description('print the manual page: thawline man | man -l -')
    .action(() => say(manPage(commandTree(program), program.version() ?? '').trimEnd()));
}
