import { readFileSync } from 'node:fs';
import type { Command } from 'commander';
import * as z from 'zod';
import {
  addReader,
  checkWishes,
  DEFAULT_WISHES,
  eraseAddress,
  hasLeft,
  hoursOf,
  EVERY_DAY,
  listReaders,
  reportBounce,
  type Reader,
  type ReaderWishes,
} from '../delivery/index.ts';
import { ThawlineError } from '../units/index.ts';
import { LANGUAGES } from '../vocabulary/index.ts';
import { configPath } from './context.ts';
import { readCsv } from './csvTable.ts';
import { say, writeWhole } from './output.ts';
import { withRecord } from './withRecord.ts';

function readText(path: string): string {
  try {
    return readFileSync(path === '-' ? 0 : path, 'utf8');
  } catch (cause) {
    throw new ThawlineError('usage', `Cannot read ${path}; give the path of an existing file.`, { cause });
  }
}

/** `1,2,5` or `6-7` as ISO weekdays. @throws ThawlineError `usage` */
export function parseDays(text: string): number[] {
  const days = text.split(',').flatMap((part) => {
    const [, from, to = from] = /^\s*([1-7])(?:-([1-7]))?\s*$/.exec(part) ?? [];
    if (from === undefined) {
      throw new ThawlineError(
        'usage',
        `--days: found "${part}", expected days like 1-5 or 6,7; 1 is Monday.`,
      );
    }
    return EVERY_DAY.filter((day) => day >= Number(from) && day <= Number(to));
  });
  return [...new Set(days)].sort((a, b) => a - b);
}

/** One reader as a line of the exchange file (one JSON object a line); what is left out is not changed. */
const lineSchema = z.strictObject({
  address: z.string(),
  lakes: z.array(z.string()).min(1).optional(),
  units: z.enum(['us', 'metric']).optional(),
  form: z.enum(['full', 'short']).optional(),
  days: z.array(z.int().min(1).max(7)).optional(),
  earliestHour: z.int().min(0).max(12).optional(),
  amendments: z.boolean().optional(),
  asksReading: z.boolean().optional(),
  language: z.enum(LANGUAGES).nullable().optional(),
  fishing: z.strictObject({ from: z.string(), to: z.string() }).nullable().optional(),
});
type Line = { readonly address: string } & Partial<ReaderWishes>;

function exported(reader: Reader): string {
  const { address, lakes, units, form, days, earliestHour, amendments, language, fishing, asksReading } =
    reader;
  return JSON.stringify({
    ...{ address, lakes, units, form, days, earliestHour, amendments },
    ...(language === null ? {} : { language }),
    ...(fishing === null ? {} : { fishing }),
    ...(asksReading ? { asksReading } : {}),
  });
}

/** `06:00-11:00` as hours; what is none is handed on, to be refused where hours are judged. */
function hoursIn(text: string | undefined): ReaderWishes['fishing'] | undefined {
  return text === undefined ? undefined : (hoursOf(text) ?? { from: text, to: '' });
}

/** Reads the whole file before anybody is added: half a list is worse than none. @throws ThawlineError `usage` */
function parseLines(text: string, path: string): Line[] {
  return text.split('\n').flatMap((line, index) => {
    if (line.trim() === '') return [];
    try {
      return [present(lineSchema.parse(JSON.parse(line)))];
    } catch (cause) {
      const why = cause instanceof z.ZodError ? z.prettifyError(cause) : 'it is not JSON';
      throw new ThawlineError('usage', `${path}, line ${index + 1}: ${why.replaceAll('\n', ' ')}`, { cause });
    }
  });
}

/** The same list as a table: address, lakes and days separated by spaces, and the other wishes, each column optional. */
function parseTable(path: string): Line[] {
  return readCsv(path, ['address']).map((row) => {
    const word = (column: string): string | undefined => row.text(column)?.trim() || undefined;
    const hour = row.number('earliest_hour', { low: 0, high: 12 });
    const read = lineSchema.safeParse({
      address: word('address') ?? '',
      lakes: word('lakes')?.split(/[\s;]+/),
      units: word('units'),
      form: word('form'),
      days: word('days')
        ?.split(/[\s;]+/)
        .flatMap(parseDays),
      earliestHour: hour,
      amendments: { yes: true, no: false }[word('amendments') ?? ''],
      asksReading: { yes: true, no: false }[word('asks_reading') ?? ''],
      language: word('language'),
      fishing: hoursIn(word('fishing')),
    });
    if (!read.success) {
      const [issue] = read.error.issues;
      throw row.complain(String(issue?.path[0] ?? 'address'), issue?.message ?? 'a reader');
    }
    return present(read.data);
  });
}

/** Without the fields that nothing is told of. */
function present({ address, ...told }: z.output<typeof lineSchema>): Line {
  const kept = Object.entries(told).filter(([, value]) => value !== undefined);
  return { address, ...(Object.fromEntries(kept) as Partial<ReaderWishes>) };
}

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
    .option('--again', 'they left or complained, and have asked you for it again')
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
        const known = await eraseAddress(record, address);
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
        const lines = /\.csv$/i.test(path) ? parseTable(path) : parseLines(readText(path), path);
        const context = { knownLakes: config.lakes.map((lake) => lake.id), nowMs: Date.now() };
        // All of it is judged before anybody is added.
        const stay: string[] = [];
        for (const { address, ...told } of lines) {
          if (await hasLeft(record, address)) stay.push(address);
          else checkWishes({ ...DEFAULT_WISHES, lakes: context.knownLakes, ...told }, context.knownLakes);
        }
        for (const { address, ...told } of lines) {
          if (!stay.includes(address)) await addReader(record, address, told, context);
        }
        const away = stay.length === 0 ? '' : `; ${stay.length} left or complained before and stay away`;
        say(`${lines.length - stay.length} readers${away}`);
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
        else writeWhole(options.out, lines.map((line) => `${line}\n`).join(''));
      }),
    );
}
