import { join } from 'node:path';
import { resolveTxt } from 'node:dns/promises';
import { readFile } from 'node:fs/promises';
import type { Command } from 'commander';
import { z } from 'zod';
import { whatIfSchema } from '../advice/whatIf/index.ts';
import { briefingSchema } from '../briefing/index.ts';
import { twinSchema } from '../words/index.ts';
import { configSchema } from '../config/index.ts';
import { dnsHints } from '../delivery/index.ts';
import { createClient, probeServices } from '../services/index.ts';
import { ThawlineError } from '../units/index.ts';
import { withContext } from './context.ts';
import { say, writeWhole } from './output.ts';

/** JSON Schemas for editors and other programs, made from the same schemas that check the files. */
export function writeSchemas(folder: string): string[] {
  const schemas = {
    config: configSchema,
    briefing: twinSchema,
    facts: briefingSchema,
    conditions: whatIfSchema,
  };
  return Object.entries(schemas).map(([name, schema]) => {
    const path = join(folder, `${name}.schema.json`);
    writeWhole(
      path,
      `${JSON.stringify(z.toJSONSchema(schema, { io: name === 'briefing' || name === 'facts' ? 'output' : 'input', unrepresentable: 'any' }), null, 2)}\n`,
    );
    return path;
  });
}

export function addCheckCommand(program: Command): void {
  program
    .command('check')
    .description('check the configuration, write the JSON Schemas, try each service once')
    .option('--schemas <dir>', 'where the JSON Schemas go', 'config/schema')
    .option('--no-services', 'do not ask any service')
    .action(async (options: { schemas: string; services: boolean }, command: Command) => {
      const failures = await withContext(command, async (ctx) => {
        const { config } = ctx;
        say(
          `${config.path}: ${config.lakes.length} ${config.lakes.length === 1 ? 'lake' : 'lakes'}, ${config.readers.length} ${config.readers.length === 1 ? 'reader' : 'readers'}, all fields as expected`,
        );
        for (const path of writeSchemas(options.schemas)) say(`${path}: written`);
        if (!options.services) return 0;
        const usgsKey = ctx.env[config.services.usgsKeyEnv];
        const client = createClient({
          contact: config.services.contact,
          timeoutMs: config.services.timeoutMs,
          parallelPerHost: config.services.parallelPerHost,
          attempts: 1,
        });
        const results = await probeServices(config, {
          client,
          nowMs: Date.now(),
          readFile: (path) => readFile(path, 'utf8'),
          ...(usgsKey ? { usgsKey } : {}),
        });
        const width = Math.max(...results.map((row) => row.service.length), 7);
        say(`${'service'.padEnd(width)}  works  ms     what was found`);
        for (const row of results)
          say(
            `${row.service.padEnd(width)}  ${row.ok ? 'yes' : 'NO '}    ${String(Math.round(row.ms)).padEnd(5)}  ${row.sentence}`,
          );
        if (config.mail.transport === 'smtp') {
          for (const hint of await dnsHints(config.mail, resolveTxt))
            say(`${hint.subject}: ${hint.sentence}`);
        }
        return results.filter((row) => !row.ok).length;
      });
      if (failures > 0)
        throw new ThawlineError(
          'service',
          `${failures} of the services did not answer as they should; the table above says why.`,
          { retryable: true },
        );
    });
}
