import { Option, type Command } from 'commander';
import { lakeById } from '../config/index.ts';
import { renderInFull } from '../render/index.ts';
import { makeBriefing } from '../schedule/index.ts';
import { ThawlineError, type UnitSystem } from '../units/index.ts';
import { envelopeFor, FORMATS, toEml, writeBriefing, type Format } from './briefFiles.ts';
import { parseInstant, withContext } from './context.ts';
import { say } from './output.ts';

interface BriefOptions {
  readonly asOf?: string;
  readonly offline?: boolean;
  readonly format: Format;
  readonly out?: string;
  readonly units: UnitSystem;
  readonly short?: boolean;
  readonly evening?: boolean;
}

export function addBriefCommand(program: Command): void {
  program
    .command('brief <lake>')
    .description('fetch, compute and print the briefing of a lake, all of it; nothing is mailed')
    .option('--as-of <instant>', 'make it as of this instant, with its zone (2026-03-06T11:15:00Z)')
    .option('--offline', 'use what is in the record; ask no service')
    .addOption(
      new Option('--format <format>', 'what to print, or which file to write with --out; eml is the mail')
        .choices(FORMATS)
        .default('text'),
    )
    .addOption(new Option('--units <units>', 'units of the reader').choices(['us', 'metric']).default('us'))
    .option('--evening', 'the evening’s look at the coming day instead of the morning’s briefing')
    .option('--short', 'print the short form for a text message')
    .option('--out <dir>', 'write all forms into this folder instead of printing')
    .action(async (lakeId: string, options: BriefOptions, command: Command) => {
      refuseBesideShort(options);
      await withContext(command, async (ctx) => {
        const lake = lakeById(ctx.config, lakeId);
        const asOfMs = parseInstant(options.asOf, Date.now());
        const { document } = await makeBriefing(ctx, lake.id, {
          asOfMs,
          offline: options.offline ?? false,
          ...(options.evening === true ? { status: 'evening' } : {}),
        });
        const forms = await renderInFull(document, {
          units: options.units,
          pictures: options.out !== undefined || options.format === 'eml',
        });
        const eml = envelopeFor(ctx.config, lake.id, document, 'reader@localhost');
        if (options.out !== undefined) {
          const formats = command.getOptionValueSource('format') === 'cli' ? [options.format] : FORMATS;
          const { files } = await writeBriefing(
            forms,
            options.out,
            `${lake.id}-${document.date}`,
            eml,
            formats,
          );
          for (const file of files) say(file);
          return;
        }
        if (options.short) say(forms.whole.short);
        else if (options.format === 'eml') process.stdout.write(await toEml(forms.mail, eml));
        else say(forms.whole[options.format]);
      });
    });
}

/** @throws ThawlineError `usage` where the short form, which is text on the terminal, is asked in another form too */
function refuseBesideShort({ short, format, out }: BriefOptions): void {
  const beside = format === 'text' ? (out === undefined ? undefined : '--out') : `--format ${format}`;
  if (short !== true || beside === undefined) return;
  throw new ThawlineError(
    'usage',
    `--short prints plain text on the terminal; leave ${beside} out, or leave --short out.`,
  );
}
