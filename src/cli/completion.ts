import type { Command } from 'commander';
import { ThawlineError } from '../units/index.ts';
import { commandTree, flattened, type CommandNode } from './commandTree.ts';
import { say } from './output.ts';

const optionsOf = (node: CommandNode, root: CommandNode): string[] => [
  ...new Set([...node.options, ...root.options].flatMap(({ names }) => names).concat('--help')),
];
/** Inside single quotes of every shell here. */
const quoted = (text: string): string => `'${text.replaceAll("'", '’')}'`;
const firstLine = (text: string): string => text.split('\n')[0] ?? '';

/** Words behind an option that takes one of a few. */
function choiceCases(root: CommandNode): string[] {
  const seen = new Map<string, readonly string[]>();
  for (const node of flattened(root))
    for (const { names, choices } of node.options)
      if (choices.length > 0) for (const name of names) seen.set(name, choices);
  return [...seen].map(
    ([name, choices]) =>
      `    ${name}) COMPREPLY=($(compgen -W ${quoted(choices.join(' '))} -- "$cur")); return ;;`,
  );
}

function bash(root: CommandNode): string {
  const nodes = flattened(root);
  const known = nodes.filter(({ path }) => path !== '').map(({ path }) => quoted(` ${path}`));
  const cases = nodes.map((node) => {
    const words = [...node.children.map(({ name }) => name), ...optionsOf(node, root)].join(' ');
    return `    ${quoted(node.path === '' ? '' : ` ${node.path}`)}) words=${quoted(words)} ;;`;
  });
  return `# bash completion of thawline: put it into ~/.local/share/bash-completion/completions/thawline
_thawline() {
  local cur="\${COMP_WORDS[COMP_CWORD]}" path='' words='' word i
  case "\${COMP_WORDS[COMP_CWORD-1]}" in
${choiceCases(root).join('\n')}
  esac
  for ((i = 1; i < COMP_CWORD; i++)); do
    word="$path \${COMP_WORDS[i]}"
    case "$word" in ${known.join('|')}) path="$word" ;; esac
  done
  case "$path" in
${cases.join('\n')}
  esac
  COMPREPLY=($(compgen -W "$words" -- "$cur"))
  [ \${#COMPREPLY[@]} -gt 0 ] || COMPREPLY=($(compgen -f -- "$cur"))
}
complete -o filenames -F _thawline thawline
`;
}

function zsh(root: CommandNode): string {
  const nodes = flattened(root);
  const known = nodes.filter(({ path }) => path !== '').map(({ path }) => quoted(` ${path}`));
  const entry = (name: string, description: string): string =>
    quoted(`${name}:${firstLine(description).replaceAll(':', '\\:')}`);
  const cases = nodes.map((node) => {
    const commands = node.children.map(({ name, description }) => entry(name, description));
    const options = [...node.options, ...root.options].flatMap(({ names, description }) =>
      names.map((name) => entry(name, description)),
    );
    return `    ${quoted(node.path === '' ? '' : ` ${node.path}`)}) commands=(${commands.join(' ')}); options=(${[...new Set(options)].join(' ')}) ;;`;
  });
  return `#compdef thawline
# zsh completion of thawline: put it as _thawline into a folder of $fpath
_thawline() {
  local place='' word
  local -a commands options
  for word in "\${words[@]:1:$((CURRENT - 2))}"; do
    case "$place $word" in ${known.join('|')}) place="$place $word" ;; esac
  done
  case "$place" in
${cases.join('\n')}
  esac
  if [[ "$PREFIX" == -* ]]; then _describe 'option' options
  elif (( \${#commands} )); then _describe 'command' commands
  else _files; fi
}
_thawline "$@"
`;
}

function fish(root: CommandNode): string {
  const lines = flattened(root).flatMap((node) => {
    const names = node.children.map(({ name }) => name);
    const here =
      node.path === ''
        ? '__fish_use_subcommand'
        : node.path
            .split(' ')
            .map((word) => `__fish_seen_subcommand_from ${word}`)
            .join('; and ') +
          (names.length === 0 ? '' : `; and not __fish_seen_subcommand_from ${names.join(' ')}`);
    return [
      ...node.children.map(
        ({ name, description }) =>
          `complete -c thawline -n ${quoted(here)} -f -a ${name} -d ${quoted(firstLine(description))}`,
      ),
      ...node.options.map(({ names: of, description, choices }) => {
        const long = of.find((name) => name.startsWith('--'))?.slice(2);
        const short = of.find((name) => /^-[^-]$/.test(name))?.slice(1);
        const parts = [
          ...(long === undefined ? [] : [`-l ${long}`]),
          ...(short === undefined ? [] : [`-s ${short}`]),
          ...(choices.length === 0 ? [] : [`-x -a ${quoted(choices.join(' '))}`]),
        ];
        const when = node.path === '' ? '' : ` -n ${quoted(here)}`;
        return `complete -c thawline${when} ${parts.join(' ')} -d ${quoted(firstLine(description))}`;
      }),
    ];
  });
  return `# fish completion of thawline: put it into ~/.config/fish/completions/thawline.fish\n${lines.join('\n')}\n`;
}

const SHELLS: Readonly<Record<string, (root: CommandNode) => string>> = { bash, zsh, fish };

export function addCompletionCommand(program: Command): void {
  program
    .command('completion <shell>')
    .description('print the completion of commands and options for bash, zsh or fish')
    .action((shell: string) => {
      const make = Object.hasOwn(SHELLS, shell) ? SHELLS[shell] : undefined;
      if (make === undefined)
        throw new ThawlineError(
          'usage',
          `completion: found "${shell}", expected ${Object.keys(SHELLS).join(', ')}.`,
        );
      say(make(commandTree(program)).trimEnd());
    });
}
