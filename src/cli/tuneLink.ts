import type { Command } from 'commander';
import { loadConfig } from '../config/index.ts';
import { linkMaker, linkSecret } from '../delivery/index.ts';
import { configPath } from './context.ts';
import { say } from './output.ts';

export function addTuneLinkCommand(program: Command): void {
  program
    .command('tune-link')
    .description('print a link, good for a day, to the page where a threshold is tried on past mornings')
    .action(async (_: unknown, command: Command) => {
      const config = await loadConfig(configPath(command));
      say(linkMaker(config.web.baseUrl, linkSecret(config, process.env)).tune(Date.now()));
    });
}
