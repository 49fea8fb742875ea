import type { Command } from 'commander';
import { lakeById } from '../config/index.ts';
import { pipelineFor, scheduleDeps, sendNow } from '../schedule/index.ts';
import { parseInstant, withContext } from './context.ts';
import { demandDelivered, outcomeLine } from './mailOutcome.ts';
import { say } from './output.ts';

/** One briefing now, to every reader of the lake who has not had it today. */
export function addSendCommand(program: Command): void {
  program
    .command('send <lake>')
    .description("make today's briefing of a lake and mail it to its readers, once a local date")
    .option('--as-of <instant>', 'act as if it were this instant, with its zone; for trials')
    .action(async (lakeId: string, options: { asOf?: string }, command: Command) => {
      await withContext(command, async (ctx) => {
        const lake = lakeById(ctx.config, lakeId);
        const started = Date.now();
        const asOfMs = parseInstant(options.asOf, started);
        const deps = scheduleDeps(ctx.config, ctx.record, pipelineFor(ctx), ctx.env);
        const report = await sendNow(
          { ...deps, now: () => asOfMs + (Date.now() - started) },
          lake.id,
        ).finally(() => deps.transport.close());
        say(
          `${lake.name}, ${report.localDate}: ${report.issued ? 'issued' : 'issued before'}; ${outcomeLine(report, report.left)}.`,
        );
        demandDelivered(report, report.left);
      });
    });
}
