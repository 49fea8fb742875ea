import { serve } from '@hono/node-server';
import { Option, type Command } from 'commander';
import { readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { lakeById, loadConfig } from '../config/index.ts';
import { makeBriefing } from '../schedule/index.ts';
import { configPath, parseInstant, withConfig } from './context.ts';
import { say } from './output.ts';
import { shipped } from './paths.ts';
import { previewApp } from './previewApp.ts';

/** Serves the page of a lake on this machine only, made anew when the configuration or a template changes. */
export function addPreviewCommand(program: Command): void {
  program
    .command('preview <lake>')
    .description(
      'show the page of a lake in a browser on this machine; reloads when configuration or templates change',
    )
    .option('--as-of <instant>', 'make it as of this instant, with its zone (2026-03-06T11:15:00Z)')
    .addOption(
      new Option('--port <port>', 'port on 127.0.0.1; 0 takes a free one').default(4173).argParser(Number),
    )
    .action(async (lakeId: string, options: { asOf?: string; port: number }, command: Command) => {
      const path = configPath(command);
      const first = await loadConfig(path);
      lakeById(first, lakeId); // an unknown lake is told here, before a server runs
      const app = previewApp({
        makeDocument: async () => {
          const config = await loadConfig(path);
          const asOfMs = parseInstant(options.asOf, Date.now());
          return withConfig(config, async (ctx) => {
            const { document } = await makeBriefing(ctx, lakeId, { asOfMs, offline: true, preview: true });
            return document;
          });
        },
        version: () => newestChange([first.path, shipped('templates'), shipped('config/rules')]),
      });
      const server = serve({ fetch: app.fetch, hostname: '127.0.0.1', port: options.port }, ({ port }) =>
        say(`Preview of ${lakeId}: http://127.0.0.1:${port}/ (stop with Ctrl+C)`),
      );
      await new Promise<void>((resolve) => {
        const stop = (): void => void server.close(() => resolve());
        process.once('SIGINT', stop);
        process.once('SIGTERM', stop);
      });
    });
}

/** Newest modification among files and the files directly in folders, as a string that changes when one of them does. */
function newestChange(paths: readonly string[]): string {
  const times = paths.flatMap((path) => {
    const stat = statSync(path, { throwIfNoEntry: false });
    if (stat === undefined) return [];
    return stat.isDirectory()
      ? readdirSync(path).map((name) => statSync(join(path, name)).mtimeMs)
      : [stat.mtimeMs];
  });
  return String(Math.max(0, ...times));
}
