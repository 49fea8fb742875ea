import type { Command } from 'commander';
import {
  addReader,
  DEFAULT_WISHES,
  eraseAddress,
  listReaders,
  reportBounce,
  type ReaderWishes,
} from '../delivery/index.ts';
import { ThawlineError } from '../units/index.ts';
import { LANGUAGES } from '../vocabulary/index.ts';
import { configPath } from './context.ts';
import { counted } from './counted.ts';
import { say, writeWhole } from './output.ts';
import { exported, hoursIn, importReaders, parseDays } from './readersFile.ts';
import { withRecord } from './withRecord.ts';

interface AddOptions {
  readonly lake?: string[];
  readonly units?: string;
  readonly form?: string;
  readonly short?: boolean;
  readonly days?: string;
  readonly earliest?: string;
  readonly amendments?: boolean;
  readonly askReading?: boolean;
  readonly language?: string;
  readonly fishing?: string;
  readonly again?: boolean;
}

/** Only what the command line names. */
function wishesOf(options: AddOptions, isTold: (option: string) => boolean): Partial<ReaderWishes> {
  const { units, days, lake, earliest } = options;
  const form = options.short === true ? 'short' : options.form;
  if (units !== undefined && units !== 'us' && units !== 'metric') {
    throw new ThawlineError('usage', `--units is us or metric, not "${units}".`);
  }
  if (form !== undefined && form !== 'full' && form !== 'short') {
    throw new ThawlineError('usage', `--form is full or short, not "${form}".`);
  }
  const language = options.language === 'lake' ? null : LANGUAGES.find((known) => known === options.language);
  if (options.language !== undefined && language === undefined) {
    throw new ThawlineError(
      'usage',
      `--language is lake or ${LANGUAGES.join(', ')}, not "${options.language}".`,
    );
  }
  return {
    ...(lake === undefined ? {} : { lakes: lake }),
    ...(units === undefined ? {} : { units }),
    ...(form === undefined ? {} : { form }),
    ...(days === undefined ? {} : { days: parseDays(days) }),
    ...(earliest === undefined ? {} : { earliestHour: Number(earliest) }),
    ...(language === undefined ? {} : { language }),
    ...(options.fishing === undefined
      ? {}
      : { fishing: options.fishing === 'lake' ? null : (hoursIn(options.fishing) ?? null) }),
    ...(isTold('amendments') ? { amendments: options.amendments !== false } : {}),
    ...(isTold('askReading') ? { asksReading: options.askReading !== false } : {}),
  };
}

export function addReadersCommands(program: Command): void {
  const readers = program.command('readers').description('who gets the briefing');

  readers
    .command('add <address>')
    .description('add a reader who asked you for it, or change the wishes you name')
    .option('--lake <id...>', 'lakes they want; needed for a new reader')
    .option('--units <system>', `us or metric (a new reader: ${DEFAULT_WISHES.units})`)
    .option('--form <form>', 'full, or short: plain text (a new reader: full)')
    .option('--short', 'the same as --form short')
    .option('--days <days>', 'weekdays, 1 is Monday: 1-5 or 6,7 (a new reader: 1-7)')
    .option('--earliest <hour>', 'local hour before which nothing is sent (a new reader: 0)')
    .option('--amendments', 'amendments during the day (a new reader: yes)')
    .option('--no-amendments', 'no amendments during the day')
    .option('--ask-reading', 'ask for a reading of the water at the top of the mail (a new reader: no)')
    .option('--no-ask-reading', 'do not ask')
    .option('--language <language>', `${LANGUAGES.join(', ')}, or lake (a new reader: lake)`)
    .option('--fishing <hours>', 'hours they fish, 06:00-11:00, or lake (a new reader: lake)')
    .option('--again', 'they left, complained or were erased, and have asked you for it again')
    .action(async (address: string, options: AddOptions, command: Command) =>
      withRecord(configPath(command), async (record, config) => {
        const knownLakes = config.lakes.map((lake) => lake.id);
        const again = options.again === true;
        const told = wishesOf(options, (name) => command.getOptionValueSource(name) === 'cli');
        const reader = await addReader(record, address, told, { knownLakes, nowMs: Date.now(), again });
        say(`${reader.address}: ${reader.lakes.join(', ')}, ${reader.units}, ${reader.form} form`);
      }),
    );

  readers
    .command('list')
    .description('readers with lakes and state')
    .option('--lake <id>', 'only this lake')
    .option('--json', 'one JSON object a line')
    .action(async (options: { lake?: string; json?: boolean }, command: Command) =>
      withRecord(configPath(command), async (record) => {
        for await (const r of listReaders(record, options.lake === undefined ? {} : { lake: options.lake })) {
          say(
            options.json === true
              ? JSON.stringify(r)
              : `${r.address.padEnd(36)} ${r.state.padEnd(10)} ${r.lakes.join(',')} ${r.units} ${r.form}`,
          );
        }
      }),
    );

  readers
    .command('remove <address>')
    .description('erase a reader everywhere in the record')
    .action(async (address: string, _options: unknown, command: Command) =>
      withRecord(configPath(command), async (record, config) => {
        const listed = config.readers.some((r) => r.address.toLowerCase() === address.trim().toLowerCase());
        if (listed) {
          throw new ThawlineError(
            'usage',
            `This reader stands in ${config.path}: take them out there first.`,
          );
        }
        const known = await eraseAddress(record, address, Date.now());
        if (!known) throw new ThawlineError('usage', 'This address is not known.');
        say('erased');
      }),
    );

  readers
    .command('bounce <address>')
    .description('note a report of a mail that came back')
    .requiredOption('--kind <kind>', 'hard, soft or complaint')
    .action(async (address: string, options: { kind: string }, command: Command) =>
      withRecord(configPath(command), async (record) => {
        const { kind } = options;
        if (kind !== 'hard' && kind !== 'soft' && kind !== 'complaint') {
          throw new ThawlineError('usage', `--kind is hard, soft or complaint, not "${kind}".`);
        }
        say(await reportBounce(record, { address }, kind, Date.now()));
      }),
    );

  readers
    .command('import <file>')
    .description('add readers from a file: JSON lines as export writes them, or a table (.csv) with a header')
    .action(async (path: string, _options: unknown, command: Command) =>
      withRecord(configPath(command), async (record, config) => {
        const { taken, away } = await importReaders(
          record,
          path,
          config.lakes.map(({ id }) => id),
          Date.now(),
        );
        say(
          `${counted(taken, 'reader')}${away === 0 ? '' : `; ${away} left, complained or were erased before and stay away`}`,
        );
      }),
    );

  readers
    .command('export')
    .description('active readers, one JSON object a line')
    .option('--out <file>', 'file instead of standard output')
    .action(async (options: { out?: string }, command: Command) =>
      withRecord(configPath(command), async (record) => {
        const lines: string[] = [];
        for await (const reader of listReaders(record, { state: 'active' })) lines.push(exported(reader));
        if (options.out === undefined) lines.forEach(say);
        else writeWhole(options.out, lines.map((line) => `${line}\n`).join(''), 'private');
      }),
    );
}
