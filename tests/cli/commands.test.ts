/** What the list of commands says is what the commands say themselves. */
import { Command, Help } from 'commander';
import { describe, expect, it } from 'vitest';
import { COMMANDS } from '../../src/cli/commands.ts';

describe('the table of commands', () => {
  it.each(Object.keys(COMMANDS))('%s: has the term and the words of the command', async (name) => {
    const row = COMMANDS[name];
    const root = new Command();
    (await row?.load())?.(root);
    const [command] = root.commands;
    expect(command?.name()).toBe(name);
    expect(row?.says).toBe(command?.description());
    expect(row?.term).toBe(command === undefined ? '' : new Help().subcommandTerm(command));
  });
});
