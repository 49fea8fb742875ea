import { createWriteStream } from 'node:fs';
import { pipeline } from 'node:stream/promises';
import type { Command } from 'commander';
import { DateTime } from 'luxon';
import { lakeById, loadConfig, type LakeConfig } from '../config/index.ts';
import {
  kindOfVariable,
  type Observation,
  restoreRecord,
  sameDoubt,
  type SeriesCoverage,
} from '../record/index.ts';
import { briefingView, verificationOf } from '../schedule/index.ts';
import { formatQuantity, ThawlineError, type UnitSystem } from '../units/index.ts';
import { kindsOfRules } from '../verification/index.ts';
import { say, wordsFor } from '../words/index.ts';
import { parseInstant } from './context.ts';
import { wrote } from './cutOutput.ts';
import { rulesOf } from './rulesOf.ts';
import { copy } from './recordCopy.ts';
import { prepare } from './recordPrepare.ts';
import { scoreText } from './scoreText.ts';
import { readSignals } from '../signals/index.ts';
import { withRecord } from './withRecord.ts';

const STRIP_DAYS = 30;

interface SharedOptions {
  readonly config?: string;
  readonly units?: string;
  readonly json?: boolean;
}

function unitSystem(text: string | undefined): UnitSystem {
  if (text === undefined || text === 'metric') return 'metric';
  if (text === 'us') return 'us';
  throw new ThawlineError('usage', `--units is us or metric, not "${text}".`);
}

function ageText(ms: number): string {
  const minutes = Math.round(ms / 60_000);
  if (minutes < 120) return `${minutes} min`;
  const hours = Math.round(minutes / 60);
  return hours < 72 ? `${hours} h` : `${Math.round(hours / 24)} days`;
}

/** One mark a day, oldest first: `#` nearly complete, `+` part, `.` nothing. */
export function gapStrip(days: readonly number[]): string {
  return days.map((share) => (share >= 0.9 ? '#' : share > 0 ? '+' : '.')).join('');
}

function localTime(ms: number, lake: LakeConfig): string {
  return DateTime.fromMillis(ms, { zone: lake.zone }).toFormat('ccc yyyy-LL-dd HH:mm');
}

function showValue(row: Observation, units: UnitSystem): string {
  return formatQuantity(row.value, kindOfVariable(row.variable), units);
}

function coverageLines(c: SeriesCoverage, lake: LakeConfig, nowMs: number, units: UnitSystem): string[] {
  const value = c.last === null ? 'no value believed' : showValue(c.last, units);
  const age =
    c.lastMs === null
      ? ''
      : `, ${c.kind === 'forecast' ? 'issued ' : ''}${ageText(nowMs - c.lastMs)} old (${localTime(c.lastMs, lake)})`;
  const doubted = c.doubted === 0 ? '' : `, ${c.doubted} doubted`;
  const from = [c.source, c.station, c.kind, c.datum].filter((part) => part !== '').join(' ');
  const strip = c.days.length === 0 ? [] : [`  ${gapStrip(c.days)}`];
  return [`${c.variable}: ${value}, ${c.freshness}${age}${doubted}`, `  ${from}`, ...strip];
}

async function show(lakeId: string, options: SharedOptions): Promise<void> {
  const units = unitSystem(options.units);
  await withRecord(options.config, async (record, config) => {
    const lake = lakeById(config, lakeId);
    const nowMs = Date.now();
    const coverage = await record.coverage(lake.id, nowMs, STRIP_DAYS);
    const refreshMs = await record.lastRefreshMs(lake.id);
    if (options.json === true) {
      console.log(
        JSON.stringify({ lake: lake.id, asOfMs: nowMs, lastRefreshMs: refreshMs, series: coverage }, null, 2),
      );
      return;
    }
    console.log(`${lake.name}: last refresh ${refreshMs === null ? 'never' : localTime(refreshMs, lake)}`);
    if (coverage.length === 0) {
      console.log(`Nothing within ${STRIP_DAYS} days. Run "thawline refresh ${lake.id}" first.`);
      return;
    }
    console.log(`Strip: the last ${STRIP_DAYS} days, today last; # complete, + part, . nothing.`);
    for (const c of coverage) console.log(coverageLines(c, lake, nowMs, units).join('\n'));
  });
}

/** Neighbouring rows with one reason become one line. */
function doubtRuns(rows: readonly Observation[]): Observation[][] {
  const runs: Observation[][] = [];
  let previous: Observation | undefined;
  for (const row of rows) {
    if (row.doubt !== undefined) {
      const isSame =
        sameDoubt(previous?.doubt, row.doubt) &&
        previous !== undefined &&
        previous.variable === row.variable &&
        previous.source === row.source &&
        previous.station === row.station;
      if (isSame) runs.at(-1)?.push(row);
      else runs.push([row]);
    }
    previous = row;
  }
  return runs;
}

async function doubts(lakeId: string, options: SharedOptions & { days: string }): Promise<void> {
  const units = unitSystem(options.units);
  const days = Number(options.days);
  if (!(days > 0)) throw new ThawlineError('usage', `--days is a number above 0, not "${options.days}".`);
  await withRecord(options.config, async (record, config) => {
    const lake = lakeById(config, lakeId);
    const view = await record.view(lake.id, Date.now(), { days });
    const doubted = view.observations.filter((row) => row.doubt !== undefined);
    if (options.json === true) {
      console.log(JSON.stringify(doubted, null, 2));
      return;
    }
    if (doubted.length === 0) console.log(`No value of the last ${days} days is doubted.`);
    for (const run of doubtRuns(view.observations)) {
      const [first, last] = [run[0], run.at(-1)];
      if (first === undefined || last === undefined) continue;
      const values = run.map((row) => row.value);
      const [low, high] = [Math.min(...values), Math.max(...values)];
      const range =
        low === high
          ? showValue(first, units)
          : `${showValue({ ...first, value: low }, units)} to ${showValue({ ...first, value: high }, units)}`;
      const until = run.length === 1 ? '' : ` to ${localTime(last.atMs, lake)}, ${run.length} values`;
      console.log(`${first.variable} ${range}, ${localTime(first.atMs, lake)}${until}`);
      console.log(
        `  ${first.source} ${first.station}: ${first.doubt === undefined ? '' : say(wordsFor('en').doubts, first.doubt)}`,
      );
    }
  });
}

async function compactRecord(options: SharedOptions): Promise<void> {
  await withRecord(options.config, async (record, config) => {
    const mornings = new Map(config.lakes.map(({ id, zone, issueAt }) => [id, { zone, at: issueAt }]));
    const gone = await record.compact(Date.now(), mornings);
    await record.upkeep.shrink();
    await record.upkeep.truncateLog();
    if (options.json === true) console.log(JSON.stringify(gone, null, 2));
    else
      console.log(
        `${config.recordPath}: removed ${gone.forecastRows} forecast values, ${gone.alerts} alerts, ${gone.floods} flood statuses, ${gone.mails} mails of the outbox, ${gone.runs} runs, ${gone.briefings} documents, ${gone.retrievals} lines of the retrieval log and ${gone.validators} validators past their time.`,
      );
  });
}

async function backup(file: string, options: SharedOptions): Promise<void> {
  await withRecord(options.config, async (record, config) => {
    await record.upkeep.copyTo(file);
    console.log(`${file}: a whole copy of ${config.recordPath}, readable by its owner only.`);
  });
}

async function restore(file: string, options: SharedOptions): Promise<void> {
  const { recordPath } = await loadConfig(options.config);
  const kept = await restoreRecord(file, recordPath);
  console.log(
    `${recordPath} is now the backup ${file}.${kept === null ? '' : ` The record so far is ${kept}.`}`,
  );
}

function dayStart(text: string, flag: string, lake: LakeConfig): DateTime {
  const day = DateTime.fromISO(text, { zone: lake.zone });
  if (!day.isValid) throw new ThawlineError('usage', `${flag} is a date such as 2026-03-01, not "${text}".`);
  return day.startOf('day');
}

async function* linesOf(rows: AsyncIterable<string>): AsyncGenerator<string> {
  for await (const row of rows) yield `${row}\r\n`;
}

/** @throws ThawlineError `usage` when the file cannot be written to its end */
async function intoFile(lines: AsyncIterable<string>, path: string): Promise<void> {
  try {
    await pipeline(lines, createWriteStream(path, { mode: 0o600 }));
  } catch (cause) {
    if (!(cause instanceof Error && 'syscall' in cause)) throw cause;
    throw new ThawlineError(
      'usage',
      `${path}: cannot be written to its end, what stands there is not whole. Name another file with --out, or make room and set its rights.`,
      { cause },
    );
  }
}

async function exportRecord(
  lakeId: string,
  options: SharedOptions & { from?: string; to?: string; out?: string },
): Promise<void> {
  await withRecord(options.config, async (record, config) => {
    const lake = lakeById(config, lakeId);
    // The export leaves out its lower bound, so a day begins one millisecond before midnight.
    const fromMs =
      options.from === undefined ? -8.64e15 : dayStart(options.from, '--from', lake).toMillis() - 1;
    const toMs =
      options.to === undefined
        ? 8.64e15
        : dayStart(options.to, '--to', lake).plus({ days: 1 }).toMillis() - 1;
    if (fromMs >= toMs)
      throw new ThawlineError('usage', `--from ${options.from ?? ''} lies after --to ${options.to ?? ''}.`);
    const rows = linesOf(record.exportCsv(lake.id, fromMs, toMs));
    if (options.out !== undefined) return intoFile(rows, options.out);
    for await (const line of rows) if (!(await wrote(line))) return;
  });
}

async function score(lakeId: string, options: SharedOptions & { asOf?: string }): Promise<void> {
  const units = unitSystem(options.units);
  const asOfMs = parseInstant(options.asOf, Date.now());
  await withRecord(options.config, async (record, config) => {
    const lake = lakeById(config, lakeId);
    const view = await briefingView(record, lake, asOfMs);
    const found = await verificationOf(record, lake, view);
    const outlook = readSignals(view, lake).outlook ?? [];
    const rules = rulesOf(config);
    if (options.json === true) {
      const evidence = kindsOfRules(rules);
      console.log(JSON.stringify({ lake: lake.id, asOfMs, ...found, outlook, evidence }, null, 2));
    } else console.log(scoreText(lake, { ...found, outlook }, units, rules));
  });
}

/** `thawline record prepare|show|doubts|score|export|backup|restore|copy|compact`. */
export function addRecordCommands(program: Command): void {
  const record = program.command('record').description('look into the record, tidy it, take it out');
  record
    .command('prepare')
    .description('make the tables, or bring them to this version, and do nothing else')
    .action((_: unknown, command: Command) => prepare(command.optsWithGlobals()));
  record
    .command('show <lake>')
    .description('last value, age, source and the gaps of the last 30 days, for each series')
    .option('--units <system>', 'us or metric', 'metric')
    .option('--json', 'as JSON')
    .action((lake: string, _: unknown, command: Command) => show(lake, command.optsWithGlobals()));
  record
    .command('doubts <lake>')
    .description('values that quality control does not believe, with the reason')
    .option('--days <n>', 'how far back', '30')
    .option('--units <system>', 'us or metric', 'metric')
    .option('--json', 'as JSON')
    .action((lake: string, _: unknown, command: Command) => doubts(lake, command.optsWithGlobals()));
  record
    .command('score <lake>')
    .description('how the last issues have done, beside simply holding the last value')
    .option('--as-of <instant>', 'as known at this instant, with its zone')
    .option('--units <system>', 'us or metric', 'metric')
    .option('--json', 'as JSON')
    .action((lake: string, _: unknown, command: Command) => score(lake, command.optsWithGlobals()));
  record
    .command('export <lake>')
    .description('raw values as CSV: SI units, UTC')
    .option('--from <date>', 'first local day')
    .option('--to <date>', 'last local day')
    .option('--out <file>', 'instead of the standard output')
    .action((lake: string, _: unknown, command: Command) => exportRecord(lake, command.optsWithGlobals()));
  record
    .command('backup <file>')
    .description('a whole copy of the record, also while it is in use')
    .action((file: string, _: unknown, command: Command) => backup(file, command.optsWithGlobals()));
  record
    .command('restore <file>')
    .description('put a backup in the place of the record; the record so far is kept beside it')
    .action((file: string, _: unknown, command: Command) => restore(file, command.optsWithGlobals()));
  record
    .command('copy')
    .description('bring the whole record into another database, verified; goes on where it was stopped')
    .requiredOption('--to <database>', 'postgres')
    .option('--address-env <name>', 'environment variable with its address', 'THAWLINE_POSTGRES_URL')
    .option('--json', 'as JSON')
    .action((_: unknown, command: Command) => copy(command.optsWithGlobals()));
  record
    .command('compact')
    .description('remove what the retention rules no longer keep and give the space back to the disk')
    .option('--json', 'as JSON')
    .action((_: unknown, command: Command) => compactRecord(command.optsWithGlobals()));
}
