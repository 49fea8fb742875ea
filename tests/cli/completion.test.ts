/** Completion and manual page come from the commands themselves: a real bash completes, and every command has its part. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Command } from 'commander';
import { describe, expect, it } from 'vitest';
import { addBriefCommand } from '../../src/cli/brief.ts';
import { commandTree } from '../../src/cli/commandTree.ts';
import { addCompletionCommand } from '../../src/cli/completion.ts';
import { manPage } from '../../src/cli/man.ts';
import { addReadingCommands } from '../../src/cli/reading.ts';
import { commandLine } from '../helpers/commandLine.ts';

const add = (root: Command): void => {
  addBriefCommand(root);
  addReadingCommands(root);
  addCompletionCommand(root);
};
const script = async (shell: string): Promise<string> => (await commandLine(add, 'completion', shell)).out;
const hasShell = (shell: string): boolean => spawnSync(shell, ['-c', 'true']).status === 0;

async function completed(...words: string[]): Promise<string[]> {
  const file = join(mkdtempSync(join(tmpdir(), 'thawline-completion-')), 'thawline.bash');
  writeFileSync(file, await script('bash'));
  const program = `source "$0"; COMP_WORDS=(thawline "$@"); COMP_CWORD=$#; _thawline; printf '%s\\n' "\${COMPREPLY[@]}"`;
  const { stdout, stderr } = spawnSync('bash', ['-c', program, file, ...words], { encoding: 'utf8' });
  expect(stderr).toBe('');
  return stdout.split('\n').filter(Boolean);
}

describe('bash', () => {
  it('completes commands, commands below them, options, and the words an option takes', async () => {
    expect(await completed('re')).toEqual(['reading']);
    expect(await completed('reading', '')).toEqual(expect.arrayContaining(['add', 'list', 'remove']));
    expect(await completed('brief', '--of')).toEqual(['--offline']);
    expect(await completed('--config', 'x.yaml', 'reading', 'add', '--cla')).toEqual(['--clarity']);
    expect(await completed('brief', '--units', 'm')).toEqual(['metric']);
  });
});

describe('the scripts', () => {
  it.each(['zsh', 'fish'])(
    'of %s name every command; the shell itself reads it where it is installed',
    async (shell) => {
      const text = await script(shell);
      for (const name of ['brief', 'reading', 'completion']) expect(text).toContain(name);
      if (!hasShell(shell)) return;
      const file = join(mkdtempSync(join(tmpdir(), 'thawline-completion-')), 'script');
      writeFileSync(file, text);
      expect(spawnSync(shell, ['-n', file], { encoding: 'utf8' })).toMatchObject({ status: 0, stderr: '' });
    },
  );

  it('of another shell are refused', async () => {
    expect(await commandLine(add, 'completion', 'cmd')).toMatchObject({
      code: 2,
      err: expect.stringMatching(/bash, zsh, fish/) as string,
    });
  });
});

describe('the manual page', () => {
  it('has a part for every command with its options, and no line that the formatter would take for an order', () => {
    const root = new Command('thawline').description('.dot first');
    add(root);
    const page = manPage(commandTree(root), '0.1.0');
    for (const part of [
      '.SS "thawline brief',
      '.SS "thawline reading add',
      '.SH "EXIT STATUS"',
      '\\-\\-offline',
    ])
      expect(page).toContain(part);
    expect(page).toContain('\\&.dot first');
  });
});
