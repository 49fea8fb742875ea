import { readFile } from 'node:fs/promises';
import type { Command } from 'commander';
import * as z from 'zod';
import { loadConfig, type Config } from '../config/index.ts';
import {
  addReader,
  DEFAULT_WISHES,
  eraseAddress,
  EVERY_DAY,
  listReaders,
  reportBounce,
  type Reader,
  type ReaderWishes,
} from '../delivery/index.ts';
import { openRecord, type RecordStore } from '../record/index.ts';
import { ThawlineError } from '../units/index.ts';
import { configPath } from './context.ts';
import { say, writeWhole } from './output.ts';

async function withRecord(
  command: Command,
  work: (record: RecordStore, config: Config) => Promise<void>,
): Promise<void> {
  const config = await loadConfig(configPath(command));
  const record = await openRecord(config.recordPath);
  try {
    await work(record, config);
  } finally {
    await record.close();
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

/** One reader as a line of the exchange file (one JSON object a line). */
const lineSchema = z.strictObject({
  address: z.string(),
  lakes: z.array(z.string()).min(1),
  units: z.enum(['us', 'metric']).default(DEFAULT_WISHES.units),
  form: z.enum(['full', 'short']).default(DEFAULT_WISHES.form),
  days: z.array(z.int().min(1).max(7)).default([...EVERY_DAY]),
  earliestHour: z.int().min(0).max(12).default(0),
  amendments: z.boolean().default(true),
});

function exported({ address, lakes, units, form, days, earliestHour, amendments }: Reader): string {
  return JSON.stringify({ address, lakes, units, form, days, earliestHour, amendments });
}

/** Reads the whole file before anybody is added: half a list is worse than none. @throws ThawlineError `usage` */
function parseLines(text: string, path: string): z.infer<typeof lineSchema>[] {
  return text.split('\n').flatMap((line, index) => {
    if (line.trim() === '') return [];
    try {
      return [lineSchema.parse(JSON.parse(line))];
    } catch (cause) {
      const why = cause instanceof z.ZodError ? z.prettifyError(cause) : 'it is not JSON';
      throw new ThawlineError('usage', `${path}, line ${index + 1}: ${why.replaceAll('\n', ' ')}`, { cause });
    }
  });
}

interface AddOptions {
  readonly lake: string[];
  readonly units: string;
  readonly short?: boolean;
  readonly days: string;
  readonly earliest: string;
  readonly amendments: boolean;
}

function wishesOf(options: AddOptions): ReaderWishes {
  if (options.units !== 'us' && options.units !== 'metric') {
    throw new ThawlineError('usage', `--units is us or metric, not "${options.units}".`);
  }
  return {
    lakes: options.lake,
    units: options.units,
    form: options.short === true ? 'short' : 'full',
    days: parseDays(options.days),
    earliestHour: Number(options.earliest),
    amendments: options.amendments,
  };
}

export function addReadersCommands(program: Command): void {
  const readers = program.command('readers').description('who gets the briefing');

  readers
    .command('add <address>')
    .description('add a reader who asked you for it, or change their wishes')
    .requiredOption('--lake <id...>', 'lakes they want')
    .option('--units <system>', 'us or metric', DEFAULT_WISHES.units)
    .option('--short', 'short form, plain text')
    .option('--days <days>', 'weekdays, 1 is Monday: 1-5 or 6,7', '1-7')
    .option('--earliest <hour>', 'local hour before which nothing is sent', '0')
    .option('--no-amendments', 'no amendments during the day')
    .action(async (address: string, options: AddOptions, command: Command) =>
      withRecord(command, async (record, config) => {
        const knownLakes = config.lakes.map((lake) => lake.id);
        const context = { knownLakes, nowMs: Date.now() };
        const reader = await addReader(record, address, wishesOf(options), context);
        say(`${reader.address}: ${reader.lakes.join(', ')}, ${reader.units}, ${reader.form} form`);
      }),
    );

  readers
    .command('list')
    .description('readers with lakes and state')
    .option('--lake <id>', 'only this lake')
    .option('--json', 'one JSON object a line')
    .action(async (options: { lake?: string; json?: boolean }, command: Command) =>
      withRecord(command, async (record) => {
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
      withRecord(command, async (record, config) => {
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
      withRecord(command, async (record) => {
        const { kind } = options;
        if (kind !== 'hard' && kind !== 'soft' && kind !== 'complaint') {
          throw new ThawlineError('usage', `--kind is hard, soft or complaint, not "${kind}".`);
        }
        say(await reportBounce(record, { address }, kind, Date.now()));
      }),
    );

  readers
    .command('import <file>')
    .description('add readers from a file: one JSON object a line, as export writes it')
    .action(async (path: string, _options: unknown, command: Command) =>
      withRecord(command, async (record, config) => {
        const lines = parseLines(await readFile(path, 'utf8'), path);
        const knownLakes = config.lakes.map((lake) => lake.id);
        for (const { address, ...wishes } of lines) {
          await addReader(record, address, wishes, { knownLakes, nowMs: Date.now() });
        }
        say(`${lines.length} readers`);
      }),
    );

  readers
    .command('export')
    .description('active readers, one JSON object a line')
    .option('--out <file>', 'file instead of standard output')
    .action(async (options: { out?: string }, command: Command) =>
      withRecord(command, async (record) => {
        const lines: string[] = [];
        for await (const reader of listReaders(record, { state: 'active' })) lines.push(exported(reader));
        if (options.out === undefined) lines.forEach(say);
        else writeWhole(options.out, lines.map((line) => `${line}\n`).join(''));
      }),
    );
}
