import { once } from 'node:events';
import type { Command } from 'commander';
import { giveBackAfterDrawing } from '../render/index.ts';
import { ThawlineError } from '../units/index.ts';
import { configPath, configWithShapes, withConfig } from './context.ts';
import { rulesOf } from './rulesOf.ts';
import { say } from './output.ts';
import { addressOf, faultsOf, pagesClock, servePages, webDeps, webPlace } from './pages.ts';
import { reloaded } from './reloading.ts';

function portOf(text: string): number {
  const port = Number(text);
  if (Number.isInteger(port) && port >= 0 && port <= 65_535) return port;
  throw new ThawlineError('usage', `--port is a number from 0 to 65535, not "${text}".`);
}

/** `thawline web`. */
export function addWebCommand(program: Command): void {
  program
    .command('web')
    .description('only serve the pages (run does it too): subscribe, settings, archive, what-if, health')
    .option('--port <n>', 'instead of that of web.listen, or web.port')
    .option(
      '--host <address>',
      'address to listen on instead of that of web.listen; put a reverse proxy with TLS before it',
    )
    .action(async (options: { port?: string; host?: string }, command: Command) => {
      giveBackAfterDrawing();
      const config = await configWithShapes(configPath(command));
      const { host, port } = webPlace(config.web, {
        ...(options.host === undefined ? {} : { host: options.host }),
        ...(options.port === undefined ? {} : { port: portOf(options.port) }),
      });
      await withConfig(config, async (ctx) => {
        const onFault = faultsOf(({ page, times, fault }) => {
          process.stderr.write(`${page} failed (${times}): ${fault}\n`);
        });
        const rest = new AbortController();
        const clock = await pagesClock(ctx, () => rest.abort());
        const server = await servePages(webDeps(ctx, onFault, clock.now), { host, port });
        say(`Pages at ${addressOf({ host, port: server.port })} until you stop it with Ctrl-C.`);
        rest.signal.addEventListener('abort', () => {
          server.pause();
          process.stderr.write(
            'A newer version has changed the record: the pages rest until this process is started in that version.\n',
          );
        });
        const onHangUp = async (): Promise<void> => {
          const read = await reloaded(config.path);
          if ('problem' in read) process.stderr.write(`The old configuration stays. ${read.problem}\n`);
          else server.serve(webDeps({ ...ctx, config: read, rules: rulesOf(read) }, onFault, clock.now));
        };
        const hangUp = (): void => void onHangUp();
        process.on('SIGHUP', hangUp);
        await Promise.race([once(process, 'SIGINT'), once(process, 'SIGTERM')]);
        process.off('SIGHUP', hangUp);
        await server.close();
        clock.stop();
      });
    });
}
