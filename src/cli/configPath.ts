import type { Command } from 'commander';

/** The configuration that the command line names; undefined where it names none. */
export function configPath(command: Command): string | undefined {
  const { config } = command.optsWithGlobals<{ config?: string }>();
  return config;
}
