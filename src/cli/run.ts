import type { Command } from 'commander';
import type { Config } from '../config/index.ts';
import { isServerRecord } from '../record/index.ts';
import { undelivered } from '../record/delivery/index.ts';
import {
  deliverPass,
  type PipelineContext,
  pipelineFor,
  runOnce,
  runScheduler,
  scheduleDeps,
  type ScheduleDeps,
} from '../schedule/index.ts';
import { giveBackAfterDrawing } from '../render/index.ts';
import { EXIT, ThawlineError } from '../units/index.ts';
import { configPath, configWithShapes, withConfig } from './context.ts';
import { demandDelivered, outcomeLine } from './mailOutcome.ts';
import { faultsOf, listenPlace, pagesClock, webDeps } from './pages.ts';
import { PagesBeside } from './pagesBeside.ts';
import { noteReload, reloaded } from './reloading.ts';
import { say } from './output.ts';
import { stopSignal } from './stopSignal.ts';
import { workBeside } from './work.ts';

/** How the command comes by its dependencies; tests put in a pipeline that asks no service. */
export type DepsFactory = (ctx: PipelineContext) => ScheduleDeps;

const realDeps: DepsFactory = (ctx) => scheduleDeps(ctx.config, ctx.record, pipelineFor(ctx), ctx.env);

async function deliverOnly(deps: ScheduleDeps): Promise<void> {
  const report = await deliverPass(deps);
  const left = await undelivered(deps.record, deps.now());
  say(outcomeLine(report, left));
  demandDelivered(report, left);
}

async function once(deps: ScheduleDeps): Promise<void> {
  const report = await runOnce(deps);
  if (report === null) {
    const sentence = 'Another process is scheduling this record: nothing was done here.';
    throw new ThawlineError('mail', sentence, { retryable: true });
  }
  say(outcomeLine(report, report.left));
  demandDelivered(report, report.left);
}

/** Works until told to stop; at SIGHUP the configuration is read again and taken up, or refused and the old one kept. */
async function stay(first: Config, stop: AbortSignal, depsOf: DepsFactory): Promise<void> {
  giveBackAfterDrawing();
  let config = first;
  let pages: PagesBeside | null = null;
  while (!stop.aborted) {
    config = await withConfig(config, async (ctx) => {
      const turn = new AbortController();
      const signal = AbortSignal.any([stop, turn.signal]);
      const deps = { ...depsOf(ctx), signal };
      let next = ctx.config;
      let asked = false;
      const take = async (): Promise<void> => {
        const read = await reloaded(ctx.config.path);
        const problem = 'problem' in read ? read.problem : '';
        await noteReload(ctx.record, problem, Date.now());
        if ('problem' in read) {
          deps.log.error({ reason: problem }, 'the changed configuration was refused; the old one stays');
          asked = false;
          return;
        }
        deps.log.info('the changed configuration is taken up');
        next = read;
        turn.abort();
      };
      const onHangUp = (): void => {
        if (asked) return;
        asked = true;
        void take();
      };
      process.on('SIGHUP', onHangUp);
      // Its worker stops by itself when the record is newer.
      const clock = await pagesClock(ctx, () => undefined);
      try {
        pages ??= new PagesBeside(deps.log);
        const onFault = faultsOf((fault) => deps.log.error(fault, 'a page failed'));
        await pages.serve(webDeps(ctx, onFault, clock.now), listenPlace(ctx.config.web));
        // Many may share a record in PostgreSQL: this process is then one of its workers, with pages beside.
        await (isServerRecord(ctx.config.recordPath) ? workBeside(ctx, deps) : runScheduler(deps));
      } finally {
        await pages?.rest();
        clock.stop();
        process.off('SIGHUP', onHangUp);
      }
      return next;
    });
  }
  await (pages as PagesBeside | null)?.close();
}

export function addRunCommand(program: Command, depsOf: DepsFactory = realDeps): void {
  program
    .command('run')
    .description('stay and work: refresh through the night, issue and mail every morning, serve the pages')
    .option('--once', 'do what is due now, then end (for a timer of the system)')
    .option('--deliver-only', 'only empty the outbox once, then end')
    .action(async (options: { once?: boolean; deliverOnly?: boolean }, command: Command) => {
      const signal = stopSignal();
      const config = await configWithShapes(configPath(command));
      if (options.deliverOnly !== true && options.once !== true) await stay(config, signal, depsOf);
      else {
        await withConfig(config, async (ctx) => {
          const deps = { ...depsOf(ctx), signal };
          const work = options.deliverOnly === true ? deliverOnly : once;
          await work(deps).finally(() => deps.transport.close());
        });
      }
      process.exitCode = EXIT.ok;
    });
}
