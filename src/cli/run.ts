import type { Command } from 'commander';
import { deliverPass, runOnce, runScheduler, scheduleDeps, type ScheduleDeps } from '../schedule/index.ts';
import type { PipelineContext } from '../schedule/context.ts';
import { pipelineFor } from '../schedule/pipeline.ts';
import { EXIT, ThawlineError } from '../units/index.ts';
import { withContext } from './context.ts';
import { say } from './output.ts';

/** How the command comes by its dependencies; tests put in a pipeline that asks no service. */
export type DepsFactory = (ctx: PipelineContext) => ScheduleDeps;

const realDeps: DepsFactory = (ctx) => scheduleDeps(ctx.config, ctx.record, pipelineFor(ctx), ctx.env);

/** Signal that fires at the first SIGTERM or SIGINT; the second one ends the process as usual. */
function stopSignal(): AbortSignal {
  const stop = new AbortController();
  for (const name of ['SIGTERM', 'SIGINT'] as const) process.once(name, () => stop.abort());
  return stop.signal;
}

export function addRunCommand(program: Command, depsOf: DepsFactory = realDeps): void {
  program
    .command('run')
    .description('stay and work: refresh through the night, issue and mail every morning')
    .option('--once', 'do what is due now, then end (for a timer of the system)')
    .option('--deliver-only', 'only empty the outbox once, then end')
    .action(async (options: { once?: boolean; deliverOnly?: boolean }, command: Command) => {
      const signal = stopSignal();
      await withContext(command, async (ctx) => {
        const deps = { ...depsOf(ctx), signal };
        if (options.deliverOnly === true) {
          const { sent, retried, failed, dropped } = await deliverPass(deps);
          say(`${sent} sent, ${retried} to be tried again, ${failed} failed, ${dropped} dropped`);
          await deps.transport.close();
        } else if (options.once === true) {
          const ran = await runOnce(deps);
          await deps.transport.close();
          if (ran) return;
          throw new ThawlineError(
            'mail',
            'Another process is scheduling this record: nothing was done here.',
            {
              retryable: true,
            },
          );
        } else {
          await runScheduler(deps);
        }
      });
      process.exitCode = EXIT.ok;
    });
}
