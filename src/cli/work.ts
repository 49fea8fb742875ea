/** `thawline work`: one of many workers on a record in PostgreSQL. */
import type { Command } from 'commander';
import type { Config } from '../config/index.ts';
import { isServerRecord, serverAddress } from '../record/index.ts';
import { giveBackAfterDrawing } from '../render/index.ts';
import {
  openEngine,
  type PipelineContext,
  pipelineFor,
  runWorker,
  scheduleDeps,
  type ScheduleDeps,
  sharedClock,
} from '../schedule/index.ts';
import { ThawlineError } from '../units/index.ts';
import { configPath, configWithShapes, withConfig } from './context.ts';
import { stopSignal } from './stopSignal.ts';

/** Works as one of many until the signal fires. */
export async function workBeside(
  ctx: PipelineContext,
  deps: ScheduleDeps & { readonly signal: AbortSignal },
): Promise<void> {
  const clock = sharedClock(ctx.record);
  await clock.set();
  const engine = await openEngine(ctx.record, serverAddress(ctx.config.recordPath, ctx.env), {
    log: deps.log,
  });
  await runWorker({ ...deps, now: clock.now }, engine, clock.set);
}

function demandServer(config: Config): void {
  if (isServerRecord(config.recordPath)) return;
  throw new ThawlineError(
    'usage',
    '`thawline work` is for a record in PostgreSQL that many processes share (docs/many-machines.md). This record is a file: use `thawline run`.',
  );
}

export function addWorkCommand(program: Command): void {
  program
    .command('work')
    .description('be one of many workers on a record in PostgreSQL: refresh, issue and mail what is due')
    .action(async (_: unknown, command: Command) => {
      const signal = stopSignal();
      const config = await configWithShapes(configPath(command));
      demandServer(config);
      giveBackAfterDrawing();
      await withConfig(config, (ctx) =>
        workBeside(ctx, { ...scheduleDeps(ctx.config, ctx.record, pipelineFor(ctx), ctx.env), signal }),
      );
    });
}
