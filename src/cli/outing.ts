import { Option, type Command } from 'commander';
import { lakeById, type Config, type LakeConfig } from '../config/index.ts';
import { outingsCsv, outingsJson, readOuting, UNTOLD, type WrittenOuting } from '../outings/index.ts';
import {
  outingsOf,
  parseWater,
  readingQuestions,
  removeOuting,
  type Outing,
  type OutingEntry,
  type RecordStore,
} from '../record/index.ts';
import { outingReport, readerOf, refuseStranger, takeOutings } from '../schedule/outings/index.ts';
import { DAY_MS } from '../units/time/index.ts';
import { ThawlineError } from '../units/index.ts';
import { lureNamed, outingParts, placeNamed, saidQuestion, wordsFor } from '../words/index.ts';
import { counted } from './counted.ts';
import { configPath } from './context.ts';
import { rulesOf } from './rulesOf.ts';
import { outingsIn } from './outingImport.ts';
import { say, writeWhole } from './output.ts';
import { readingEffect } from './readingEffect.ts';
import { withRecord } from './withRecord.ts';

/** Days that the record is read back for the estimate which a reading moves, and for what speaks against one. */
const VIEW_DAYS = 420;
const QUESTION_DAYS = 30;

interface Opened {
  readonly record: RecordStore;
  readonly config: Config;
}

interface AddOptions {
  readonly reader: string;
  readonly date: string;
  readonly time?: string;
  readonly hours?: string;
  readonly place: readonly string[];
  readonly lure: readonly string[];
  readonly bites?: string;
  readonly fish?: string;
  readonly biggest?: string;
  readonly water?: string;
  readonly depth?: string;
  readonly clarity?: string;
  readonly plan?: string;
  readonly note?: string;
  readonly share?: boolean;
  readonly yes?: boolean;
}

function written(options: AddOptions): WrittenOuting {
  const [from = '', to = ''] = (options.time ?? '').split('-').map((part) => part.trim());
  if (options.time !== undefined && (from === '' || to === ''))
    throw new ThawlineError('usage', `--time "${options.time}": write the local hours like 06:30-11:00.`);
  return {
    ...UNTOLD,
    date: options.date,
    from,
    to,
    hours: options.hours ?? '',
    places: options.place,
    lures: options.lure,
    bites: options.bites ?? '',
    fish: options.fish ?? '',
    biggest: options.biggest ?? '',
    water: options.water ?? '',
    depth: options.depth ?? '',
    clarity: options.clarity ?? '',
    plan: options.plan ?? '',
    note: options.note ?? '',
    shared: options.share === true,
  };
}

/** What speaks against the readings of outings; empty when nothing does. */
async function questionsOf(
  record: RecordStore,
  lake: LakeConfig,
  entries: readonly (OutingEntry & { readonly water?: string })[],
  nowMs: number,
): Promise<string[]> {
  if (entries.every(({ reading }) => reading === undefined)) return [];
  const asked: string[] = [];
  const oldestMs = Math.min(...entries.map(({ reading }) => reading?.atMs ?? nowMs));
  const days = Math.ceil((nowMs - oldestMs) / DAY_MS) + QUESTION_DAYS;
  const view = await record.view(lake.id, nowMs, { days });
  for (const { reading, called, water } of entries) {
    if (reading === undefined) continue;
    const told = water === undefined || water === '' ? undefined : parseWater(water);
    for (const question of readingQuestions(reading, view, nowMs, told)) {
      const said = saidQuestion(question, 'metric');
      asked.push(called === undefined ? said : `${called}: ${said}`);
    }
  }
  return asked;
}

function refuseQuestions(questions: readonly string[], yes: boolean | undefined): void {
  if (questions.length > 0 && yes !== true)
    throw new ThawlineError(
      'usage',
      `Is this right? ${questions.join(' ')} Nothing was stored: correct it, or say it again with --yes.`,
    );
}

const hoursText = (hours: number): string => String(Number(hours.toFixed(2)));

function describe({ id, date, hours, fish, bites, places, lures, shared }: Outing): string {
  const where = places.map(({ kind, name }) => name ?? kind).join(', ') || 'no place named';
  const bit = bites === undefined ? '' : `, ${bites} bites`;
  const what = lures.length === 0 ? '' : `, ${lures.join(', ')}`;
  return `${id}  ${date}  ${hoursText(hours)} h, ${fish} fish${bit}; ${where}${what}${shared ? '; shared' : ''}`;
}

async function add(opened: Opened, lakeId: string, options: AddOptions): Promise<void> {
  const { record, config } = opened;
  const lake = lakeById(config, lakeId);
  const nowMs = Date.now();
  const reader = await readerOf(opened, options.reader);
  refuseStranger(lake, reader);
  const told = written(options);
  const read = readOuting(told, { lake, readerId: reader.id, nowMs });
  if (!('outing' in read))
    throw new ThawlineError(
      'usage',
      `${read.problems.map(wordsFor('en').outingProblem).join(' ')} Nothing was stored.`,
    );
  const { outing, reading } = read;
  refuseQuestions(await questionsOf(record, lake, [{ ...read, water: told.water }], nowMs), options.yes);
  const view = reading === undefined ? null : await record.view(lake.id, nowMs, { days: VIEW_DAYS });
  if ((await takeOutings(record, lake, reader, [read], nowMs)) === 0)
    throw new ThawlineError('usage', `This outing was told before (${outing.id}); it counts once.`);
  const effect =
    reading === undefined || view === null ? [] : readingEffect(reading, view, lake, nowMs).sentences;
  const unused =
    outing.waterC !== undefined && reading === undefined
      ? [
          'Its water temperature stays with the outing: it is of a side water that the configuration does not have.',
        ]
      : [];
  say([`Stored ${describe(outing)}.`, ...effect, ...unused].join(' '));
}

async function importFile(
  opened: Opened,
  lakeId: string,
  path: string,
  options: { readonly reader: string; readonly yes?: boolean },
): Promise<void> {
  const { record, config } = opened;
  const lake = lakeById(config, lakeId);
  const nowMs = Date.now();
  const reader = await readerOf(opened, options.reader);
  refuseStranger(lake, reader);
  const entries = outingsIn(path, { lake, readerId: reader.id, nowMs });
  refuseQuestions(await questionsOf(record, lake, entries, nowMs), options.yes);
  const added = await takeOutings(record, lake, reader, entries, nowMs);
  const before = entries.length - added;
  say(`${counted(added, 'outing')} of ${lake.name}${before === 0 ? '' : `; ${before} were told before`}.`);
}

async function list(
  opened: Opened,
  options: {
    readonly reader: string;
    readonly lake?: string;
    readonly json?: boolean;
    readonly csv?: boolean;
    readonly out?: string;
  },
): Promise<void> {
  const reader = await readerOf(opened, options.reader);
  const lake = options.lake === undefined ? {} : { lake: lakeById(opened.config, options.lake).id };
  const all = await outingsOf(opened.record, { readerId: reader.id, ...lake });
  const text =
    options.json === true
      ? outingsJson(all)
      : options.csv === true
        ? outingsCsv(all)
        : all.length === 0
          ? 'No outing yet.\n'
          : all.map((one) => `${describe(one)}\n`).join('');
  if (options.out === undefined) process.stdout.write(text);
  else {
    writeWhole(options.out, text, 'private');
    say(options.out);
  }
}

async function rates(
  opened: Opened,
  lakeId: string,
  options: { readonly reader?: string; readonly json?: boolean },
): Promise<void> {
  const lake = lakeById(opened.config, lakeId);
  const own = options.reader === undefined ? {} : { readerId: (await readerOf(opened, options.reader)).id };
  const report = await outingReport(opened.record, lake.id, own);
  if (options.json === true) {
    say(JSON.stringify(report, null, 2));
    return;
  }
  const { text } = rulesOf(opened.config);
  const words = wordsFor('en');
  const parts = outingParts(report, options.reader === undefined ? 'shared' : 'own', words, {
    place: (kind) => placeNamed(text, kind),
    lure: (lure) => lureNamed(words, text, lure),
  });
  for (const { heading, lines } of parts) say([heading, ...lines.map((line) => `  ${line}`)].join('\n'));
}

const collect = (value: string, before: readonly string[]): string[] => [...before, value];

/** `thawline outing add|import|list|remove|rates`. */
export function addOutingCommands(program: Command): void {
  const outing = program
    .command('outing')
    .description('what readers tell of their days on the water, blank days most of all');
  outing
    .command('add <lake>')
    .description(
      'store an outing, e.g. outing add pine-hollow --reader ann@example.org --date 2026-03-05 --time 06:30-11:00 --fish 0',
    )
    .requiredOption('--reader <address>', 'whose it is')
    .requiredOption('--date <date>', 'local day at the lake')
    .option('--time <from-to>', 'local hours, 06:30-11:00')
    .option('--hours <number>', 'hours fished, where the times are not known or there was a break')
    .option('--fish <number>', 'bass landed; 0 is an answer')
    .option('--bites <number>', 'bites, fish included')
    .option('--place <place>', 'kind of place or name of the lake; may be repeated', collect, [])
    .option('--lure <class>', 'class of lure; may be repeated', collect, [])
    .option('--biggest <size>', 'the biggest fish, 2.4lb, 1.1kg, 17in or 43cm')
    .option('--water <temperature>', 'water temperature, 9.4C or 49F; it feeds the lake at once')
    .option('--depth <length>', 'depth of the thermometer, 0.3m')
    .option('--clarity <length>', 'how deep a white disc or lure is seen, 0.6m or 2ft')
    .addOption(
      new Option('--plan <word>', 'whether the plan was followed; left out, the places tell').choices([
        'followed',
        'elsewhere',
      ]),
    )
    .option('--note <text>', 'a note of their own; shown to nobody else')
    .option('--share', 'let it count in what all readers of the lake see')
    .option('--yes', 'the water is right even if it looks odd')
    .action((lake: string, options: AddOptions, command: Command) =>
      withRecord(configPath(command), (record, config) => add({ record, config }, lake, options)),
    );
  outing
    .command('import <lake> <file>')
    .description(
      'outings from a CSV file, all or none: date, fish, hours or from and to; and where known places, lures (| between), bites, biggest_cm|kg|in|lb, water_c or water_f, depth_m, clarity_m, plan, shared, note',
    )
    .requiredOption('--reader <address>', 'whose they are')
    .option('--yes', 'the waters are right even if they look odd')
    .action((lake: string, path: string, options: { reader: string; yes?: boolean }, command: Command) =>
      withRecord(configPath(command), (record, config) =>
        importFile({ record, config }, lake, path, options),
      ),
    );
  outing
    .command('list')
    .description("a reader's own outings, to look at or to take along")
    .requiredOption('--reader <address>', 'whose')
    .option('--lake <id>', 'only this lake')
    .option('--csv', 'as CSV, which import reads again')
    .option('--json', 'as JSON')
    .option('--out <file>', 'file instead of standard output')
    .action((options: Parameters<typeof list>[1], command: Command) =>
      withRecord(configPath(command), (record, config) => list({ record, config }, options)),
    );
  outing
    .command('remove <id>')
    .description('take an outing back, with the reading that it brought')
    .action(async (id: string, _: unknown, command: Command) =>
      withRecord(configPath(command), async (record) => {
        if (!(await removeOuting(record, id)))
          throw new ThawlineError('usage', `There is no outing "${id}": "thawline outing list" names them.`);
        say(`Removed ${id}.`);
      }),
    );
  outing
    .command('rates <lake>')
    .description('fish an hour by kind of place, lure, part of the day and agreement with the plan')
    .option('--reader <address>', "one reader's own instead of what all share")
    .option('--json', 'as JSON')
    .action((lake: string, options: { reader?: string; json?: boolean }, command: Command) =>
      withRecord(configPath(command), (record, config) => rates({ record, config }, lake, options)),
    );
}
