/** The commands as a tree: what completion and the manual page are made from, so that neither can fall behind. */
import type { Command } from 'commander';

export interface CommandOption {
  /** `--units`, and `-u` where there is one. */
  readonly names: readonly string[];
  /** As in the help: `--units <units>`. */
  readonly flags: string;
  readonly description: string;
  readonly choices: readonly string[];
  /** As printed where nothing is given; '' for none. */
  readonly byDefault: string;
  readonly isMust: boolean;
}

export interface CommandNode {
  /** Words from the program's name on: `reading add`; '' for the program itself. */
  readonly path: string;
  readonly name: string;
  readonly usage: string;
  readonly description: string;
  readonly options: readonly CommandOption[];
  readonly children: readonly CommandNode[];
}

export function commandTree(command: Command, above = ''): CommandNode {
  const isRoot = command.parent === null;
  const path = isRoot ? '' : `${above} ${command.name()}`.trim();
  return {
    path,
    name: command.name(),
    usage: command.usage(),
    description: command.description(),
    options: command.options.map(
      ({ long, short, flags, description, argChoices, defaultValue, mandatory }) => ({
        names: [short, long].filter((name): name is string => typeof name === 'string'),
        flags,
        description,
        choices: argChoices ?? [],
        byDefault: typeof defaultValue === 'string' ? defaultValue : '',
        isMust: mandatory,
      }),
    ),
    children: command.commands.map((child) => commandTree(child, path)),
  };
}

/** What an option does, and what else the help says of it: its choices, its default, whether it must be given. */
export function optionWords({ description, choices, byDefault, isMust }: CommandOption): string {
  const more = [
    ...(isMust ? ['must be given'] : []),
    ...(choices.length === 0 ? [] : [`one of ${choices.join(', ')}`]),
    ...(byDefault === '' ? [] : [`default ${byDefault}`]),
  ];
  return more.length === 0 ? description : `${description} (${more.join('; ')})`;
}

/** The node and everything below it, parents first. */
export const flattened = (node: CommandNode): CommandNode[] => [node, ...node.children.flatMap(flattened)];
