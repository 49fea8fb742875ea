import { once } from 'node:events';
import type { Command } from 'commander';
import { loadConfig } from '../config/index.ts';
import { loadRules } from '../config/rules.ts';
import { tuneRules } from '../config/tune.ts';
import { linkSecret } from '../delivery/index.ts';
import { openRecord } from '../record/index.ts';
import { ThawlineError } from '../units/index.ts';
import { startWebServer } from '../web/index.ts';

interface Options {
  readonly config?: string;
  readonly port?: string;
  readonly host: string;
}

function portOf(text: string): number {
  const port = Number(text);
  if (Number.isInteger(port) && port >= 0 && port <= 65_535) return port;
  throw new ThawlineError('usage', `--port is a number from 0 to 65535, not "${text}".`);
}

async function web(options: Options): Promise<void> {
  const config = await loadConfig(options.config);
  const port = options.port === undefined ? config.web.port : portOf(options.port);
  const record = await openRecord(config.recordPath);
  const deps = {
    config,
    record,
    rules: tuneRules(loadRules(), config.thresholds),
    secret: linkSecret(config, process.env),
    now: Date.now,
    onFault: (error: unknown) =>
      console.error(error instanceof Error ? (error.stack ?? error.message) : error),
  };
  try {
    const server = await startWebServer(deps, port, options.host).catch((cause: unknown) => {
      const why = cause instanceof Error ? cause.message : String(cause);
      throw new ThawlineError(
        'usage',
        `Cannot listen on ${options.host}:${port} (${why}): choose another --port.`,
        { cause },
      );
    });
    console.log(`Pages at http://${options.host}:${server.port}/ until you stop it with Ctrl-C.`);
    await Promise.race([once(process, 'SIGINT'), once(process, 'SIGTERM')]);
    await server.close();
  } finally {
    await record.close();
  }
}

/** `thawline web`. */
export function addWebCommand(program: Command): void {
  program
    .command('web')
    .description('serve the pages: subscribe, settings, archive, what-if, health')
    .option('--port <n>', 'instead of the configured one')
    .option('--host <address>', 'address to listen on; put a reverse proxy with TLS before it', '127.0.0.1')
    .action((_: unknown, command: Command) => web(command.optsWithGlobals()));
}
