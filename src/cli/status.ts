import type { Command } from 'commander';
import { loadConfig } from '../config/index.ts';
import { openRecord } from '../record/index.ts';
import { statusOf, statusText } from '../schedule/index.ts';
import { EXIT } from '../units/index.ts';
import { configPath } from './context.ts';
import { say } from './output.ts';

export function addStatusCommand(program: Command): void {
  program
    .command('status')
    .description(
      'per lake: last refresh, last and next issue, readers, mails; ends with 1 when something needs you',
    )
    .option('--json', 'as JSON, for monitoring')
    .action(async (options: { json?: boolean }, command: Command) => {
      const config = await loadConfig(configPath(command));
      const record = await openRecord(config.recordPath);
      try {
        const status = await statusOf(record, config, Date.now(), await record.upkeep.complaint());
        say(options.json === true ? JSON.stringify(status, null, 2) : statusText(status, config));
        process.exitCode = status.ok ? EXIT.ok : EXIT.failure;
      } finally {
        await record.close();
      }
    });
}
