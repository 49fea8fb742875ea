/** Readers as a file: JSON lines as export writes them, or a table with a header; judged whole before anybody is added. */
import { readFileSync } from 'node:fs';
import * as z from 'zod';
import { nearest, problemWords, textIn } from '../config/index.ts';
import type { DeliveryRecord } from '../record/index.ts';
import {
  addReader,
  EVERY_DAY,
  hoursOf,
  judgeReader,
  type Reader,
  type ReaderWishes,
} from '../delivery/index.ts';
import { ThawlineError } from '../units/index.ts';
import { LANGUAGES } from '../vocabulary/index.ts';
import { readCsv, type CsvRow } from './csvTable.ts';

/** `1,2,5` or `6-7` as ISO weekdays; undefined where it is none. */
function daysIn(text: string): number[] | undefined {
  const days = text.split(',').flatMap((part) => {
    const [, from, to = from] = /^\s*([1-7])(?:-([1-7]))?\s*$/.exec(part) ?? [];
    return from === undefined ? [NaN] : EVERY_DAY.filter((day) => day >= Number(from) && day <= Number(to));
  });
  return days.some(Number.isNaN) ? undefined : [...new Set(days)].sort((a, b) => a - b);
}

const DAYS = 'days like 1-5 or 6,7; 1 is Monday';

/** The days of an option. @throws ThawlineError `usage` */
export function parseDays(text: string): number[] {
  const days = daysIn(text);
  if (days === undefined) throw new ThawlineError('usage', `--days: found "${text}", expected ${DAYS}.`);
  return days;
}

/** `06:00-11:00` as hours; what is none is handed on, to be refused where hours are judged. */
export function hoursIn(text: string | undefined): ReaderWishes['fishing'] | undefined {
  return text === undefined ? undefined : (hoursOf(text) ?? { from: text, to: '' });
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

/** A reader as told, and where in the file. */
interface Line {
  /** File and line, and the column of an address where there are columns. */
  readonly at: (field: 'address' | 'lakes' | null) => string;
  readonly line: number;
  readonly address: string;
  readonly told: Partial<ReaderWishes>;
}

/** The line of a reader for an export. */
export function exported(reader: Reader): string {
  const { address, lakes, units, form, days, earliestHour, amendments, language, fishing, asksReading } =
    reader;
  return JSON.stringify({
    ...{ address, lakes, units, form, days, earliestHour, amendments },
    ...(language === null ? {} : { language }),
    ...(fishing === null ? {} : { fishing }),
    ...(asksReading ? { asksReading } : {}),
  });
}

/** Without the fields that nothing is told of. */
function present({ address, ...told }: z.output<typeof lineSchema>): Pick<Line, 'address' | 'told'> {
  const kept = Object.entries(told).filter(([, value]) => value !== undefined);
  return { address, told: Object.fromEntries(kept) };
}

function textOf(path: string): string {
  let bytes: Buffer;
  try {
    bytes = readFileSync(path === '-' ? 0 : path);
  } catch (cause) {
    const what = path === '-' ? 'the standard input' : path;
    throw new ThawlineError('usage', `Cannot read ${what}; give the path of an existing file.`, { cause });
  }
  return textIn(bytes, path, 'usage');
}

function jsonLines(path: string): Line[] {
  return textOf(path)
    .replace(/^\uFEFF/, '')
    .split('\n')
    .flatMap((text, index) => {
      if (text.trim() === '') return [];
      const at = (): string => `${path}, line ${index + 1}`;
      let value: unknown;
      try {
        value = JSON.parse(text);
      } catch (cause) {
        const sentence = `${at()}: it is not JSON. Give one object a line, as export writes them; a table is named .csv.`;
        throw new ThawlineError('usage', sentence, { cause });
      }
      const read = lineSchema.safeParse(value);
      if (read.success) return [{ at, line: index + 1, ...present(read.data) }];
      const why = read.error.issues.map(
        (issue) =>
          `${issue.path.length === 0 ? '' : `${issue.path.join('.')}: `}${problemWords(issue, value, lineSchema)}`,
      );
      throw new ThawlineError('usage', `${at()}: ${why.join('; ')}.`);
    });
}

const COLUMNS = [
  'address',
  'lakes',
  'units',
  'form',
  'days',
  'earliest_hour',
  'amendments',
  'asks_reading',
  'language',
  'fishing',
] as const;

/** A word of a column that takes a few. @throws ThawlineError `usage` */
function oneOf<T extends string>(row: CsvRow, column: string, words: readonly T[]): T | undefined {
  const found = row.text(column);
  if (found === undefined) return undefined;
  const word = words.find((one) => one === found);
  if (word === undefined) throw row.complain(column, words.join(' or '));
  return word;
}

const partsOf = (text: string | undefined): string[] | undefined =>
  text?.split(/[\s;]+/).filter((part) => part !== '');

/** Address, lakes and days separated by spaces or semicolons, and the other wishes, each column optional. */
function table(path: string): Line[] {
  return readCsv(path, ['address'], COLUMNS).map((row) => {
    const days = partsOf(row.text('days'))?.map((part) => {
      const read = daysIn(part);
      if (read === undefined) throw row.complain('days', DAYS);
      return read;
    });
    const hour = row.number('earliest_hour', { low: 0, high: 12 });
    if (hour !== undefined && !Number.isInteger(hour))
      throw row.complain('earliest_hour', 'a whole hour from 0 to 12');
    const fishing = row.text('fishing');
    if (fishing !== undefined && hoursOf(fishing) === null)
      throw row.complain('fishing', 'hours like 06:00-11:00');
    const at = (field: string | null): string =>
      `${path}, line ${row.line}${field === null ? '' : `, column "${field}"`}`;
    return {
      at,
      line: row.line,
      ...present({
        address: row.written('address'),
        lakes: partsOf(row.text('lakes')),
        units: oneOf(row, 'units', ['us', 'metric']),
        form: oneOf(row, 'form', ['full', 'short']),
        days: days === undefined ? undefined : [...new Set(days.flat())].sort((a, b) => a - b),
        earliestHour: hour,
        amendments: row.yesNo('amendments'),
        asksReading: row.yesNo('asks_reading'),
        language: oneOf(row, 'language', LANGUAGES),
        fishing: hoursIn(fishing),
      }),
    };
  });
}

function refuseUnknownLake({ at, told }: Line, knownLakes: readonly string[]): void {
  const other = told.lakes?.find((lake) => !knownLakes.includes(lake));
  if (other === undefined) return;
  const guess = nearest(other, knownLakes);
  throw new ThawlineError(
    'usage',
    `${at('lakes')}: found "${other}", expected lakes of ${knownLakes.join(', ')}${guess === null ? '' : `; did you mean ${guess}?`} Nobody was added.`,
  );
}

/**
 * Adds the readers of a file, all of them judged before one is added.
 *
 * @returns how many were taken, and how many stay away because they left, complained or were erased
 * @throws ThawlineError `usage` with file and line
 */
export async function importReaders(
  record: DeliveryRecord,
  path: string,
  knownLakes: readonly string[],
  nowMs: number,
): Promise<{ readonly taken: number; readonly away: number }> {
  const lines = /\.csv$/i.test(path) ? table(path) : jsonLines(path);
  if (lines.length === 0)
    throw new ThawlineError(
      'usage',
      `${path === '-' ? 'The standard input' : path}: there is no reader in it.`,
    );
  const lineOf = new Map<string, number>();
  const taken: Line[] = [];
  for (const one of lines) {
    const judged = await judgedLine(record, one, knownLakes);
    const before = lineOf.get(judged.address);
    if (before !== undefined)
      throw new ThawlineError(
        'usage',
        `${one.at('address')}: the same address as in line ${before}; take one of the two out. Nobody was added.`,
      );
    lineOf.set(judged.address, one.line);
    if (!judged.stayAway) taken.push(one);
  }
  for (const { address, told } of taken) await addReader(record, address, told, { knownLakes, nowMs });
  return { taken: taken.length, away: lines.length - taken.length };
}

/** @throws ThawlineError `usage` that says where */
async function judgedLine(
  record: DeliveryRecord,
  line: Line,
  knownLakes: readonly string[],
): Promise<{ readonly address: string; readonly stayAway: boolean }> {
  refuseUnknownLake(line, knownLakes);
  try {
    return await judgeReader(record, line.address, line.told, knownLakes);
  } catch (cause) {
    if (!(cause instanceof ThawlineError) || cause.code !== 'usage') throw cause;
    throw new ThawlineError('usage', `${line.at(null)}: ${cause.message} Nobody was added.`, { cause });
  }
}
