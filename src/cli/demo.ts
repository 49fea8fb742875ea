import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Option, type Command } from 'commander';
import { loadConfig, type Config } from '../config/index.ts';
import { renderInFull } from '../render/index.ts';
import { makeBriefing } from '../schedule/index.ts';
import type { UnitSystem } from '../units/index.ts';
import { envelopeFor, writeBriefing } from './briefFiles.ts';
import { withConfig } from './context.ts';
import { startDemoServer, type DemoData } from './demoServer.ts';
import { say } from './output.ts';
import { shipped } from './paths.ts';

const LAKE = 'ossarly';

/** The example with its lake on the invented outline, which a copy of the example elsewhere would not find. */
function demoConfig(folder: string): string {
  const example = readFileSync(shipped('config/thawline.example.yaml'), 'utf8');
  const path = join(folder, 'thawline.yaml');
  const outline = JSON.stringify(shipped('config/ossarly.geojson'));
  writeFileSync(
    path,
    example.replace(/^( *)# outline: \S+/m, (_, indent: string) => `${indent}outline: ${outline}`),
  );
  return path;
}

/**
 * The whole way on bundled data: a loopback server speaks as the services do, and everything after it is the program as
 * it runs every morning, as of the instant the data were made for.
 */
export function addDemoCommand(program: Command): void {
  program
    .command('demo')
    .description('a complete briefing of an invented lake, offline, in seconds')
    .addOption(new Option('--units <units>', 'units of the reader').choices(['us', 'metric']).default('us'))
    .option('--out <dir>', 'folder for the files', 'out')
    .action(async (options: { units: UnitSystem; out: string }) => {
      const data = JSON.parse(readFileSync(shipped('fixtures/demo/ossarly.json'), 'utf8')) as DemoData;
      const server = await startDemoServer(data);
      const scratch = mkdtempSync(join(tmpdir(), 'thawline-demo-'));
      try {
        const example = await loadConfig(demoConfig(scratch));
        const base = server.url;
        const config: Config = {
          ...example,
          recordPath: join(scratch, 'demo.sqlite'),
          services: {
            ...example.services,
            baseUrls: { 'open-meteo': base, 'open-meteo-archive': base, usgs: base },
          },
        };
        await withConfig(config, async (ctx) => {
          const { document } = await makeBriefing(ctx, LAKE, {
            asOfMs: Date.parse(data.asOf),
            offline: false,
          });
          const forms = await renderInFull(document, { units: options.units, pictures: true });
          const { files } = await writeBriefing(
            forms,
            options.out,
            `${LAKE}-${document.date}`,
            envelopeFor(config, LAKE, document, 'reader@example.org'),
          );
          say(forms.mail.text);
          say('');
          say('Invented data of an invented lake. Written:');
          for (const file of files) say(`  ${file}`);
        });
      } finally {
        await server.close();
        rmSync(scratch, { recursive: true, force: true });
      }
    });
}
