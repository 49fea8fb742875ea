import { setTimeout as pause } from 'node:timers/promises';
import type { Command } from 'commander';
import { loadConfig } from '../config/index.ts';
import { openRecord } from '../record/index.ts';
import { lockHolder } from '../record/schedule/index.ts';
import { livingPid, ownerName, SCHEDULER_LOCK } from '../schedule/index.ts';
import { ThawlineError } from '../units/index.ts';
import { configPath } from './context.ts';
import { say } from './output.ts';
import { reloadAnswer } from './reloading.ts';

/** A process under way finishes its mails first; this long it may take to answer. */
const ANSWER_MS = 10_000;

export function addReloadCommand(program: Command): void {
  program
    .command('reload')
    .description('have the running `thawline run` take up the changed configuration, or say why it cannot')
    .action(async (_: unknown, command: Command) => {
      // Refused here already where it is wrong.
      const config = await loadConfig(configPath(command));
      const record = await openRecord(config.recordPath);
      try {
        const holder = await lockHolder(record, SCHEDULER_LOCK);
        const pid = holder === undefined ? null : livingPid(holder.owner, ownerName());
        if (pid === null)
          throw new ThawlineError(
            'usage',
            'No `thawline run` of this record runs on this machine: start it, or send it SIGHUP where it runs.',
          );
        const askedMs = Date.now();
        process.kill(pid, 'SIGHUP');
        const untilMs = askedMs + ANSWER_MS;
        while (Date.now() < untilMs) {
          await pause(100);
          const answer = await reloadAnswer(record, askedMs);
          if (answer === undefined) continue;
          if (answer.problem !== '') throw new ThawlineError('config', answer.problem);
          say('The changed configuration is taken up.');
          return;
        }
        throw new ThawlineError('record', `Process ${pid} has not answered: see its log.`, {
          retryable: true,
        });
      } finally {
        await record.close();
      }
    });
}
