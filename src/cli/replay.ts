import { rulesOf } from './rulesOf.ts';
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { Option, type Command } from 'commander';
import { lakeById, type LakeConfig, type RuleBook } from '../config/index.ts';
import { clientFor, type PipelineContext } from '../schedule/index.ts';
import {
  backFill,
  checkSeason,
  compareSeasons,
  countWords,
  type ReplayedMorning,
  replaySeason,
  rulesWith,
  type Season,
  seasonDay,
  type SeasonDay,
} from '../schedule/replay/index.ts';
import { renderBriefing } from '../render/index.ts';
import { ThawlineError, type UnitSystem } from '../units/index.ts';
import { withContext } from './context.ts';
import { say, writeWhole } from './output.ts';
import { compareCsv, seasonCsv } from './seasonCsv.ts';
import { basisLines, seasonPage } from './seasonPage.ts';

interface SeasonOptions {
  readonly from: string;
  readonly to: string;
  readonly rules?: string;
  readonly set: readonly string[];
  readonly out?: string;
  readonly offline?: boolean;
}
interface ReplayOptions extends SeasonOptions {
  readonly morning?: string;
  readonly units: UnitSystem;
}
interface CompareOptions extends SeasonOptions {
  readonly with?: string;
}

/** @throws ThawlineError `usage` */
function changes(pairs: readonly string[]): Map<string, number> {
  return new Map(
    pairs.map((pair) => {
      const cut = pair.indexOf('=');
      const value = Number(pair.slice(cut + 1));
      if (cut < 1 || pair.slice(cut + 1).trim() === '' || !Number.isFinite(value))
        throw new ThawlineError(
          'usage',
          `--set: found "${pair}", expected a rule's number and its new value, for example safety.hazards.cold-water.classes.danger.at=12.`,
        );
      return [pair.slice(0, cut), value] as const;
    }),
  );
}

function rulesFrom(ctx: PipelineContext, folder: string | undefined, pairs: readonly string[]): RuleBook {
  const base = folder === undefined ? ctx.rules : rulesOf(ctx.config, folder);
  return rulesWith(base, changes(pairs));
}

/** Brings the past into the record; what could not be had comes back as sentences. */
async function prepare(
  ctx: PipelineContext,
  lake: LakeConfig,
  season: Season,
  offline: boolean,
): Promise<string[]> {
  const nowMs = Date.now();
  checkSeason(season, lake, nowMs);
  if (offline) return [];
  const { services } = ctx.config;
  const client = ctx.client ?? clientFor(ctx.config, ctx.record);
  const usgsKey = ctx.env[services.usgsKeyEnv];
  const done = await backFill(ctx, lake, season, {
    client,
    services,
    nowMs,
    pastDays: 0,
    ...(usgsKey === undefined || usgsKey === '' ? {} : { usgsKey }),
    readFile: (path) => readFile(path, 'utf8'),
  });
  await client.confirm();
  return [...done.gauges];
}

async function replay(lakeId: string, options: ReplayOptions, ctx: PipelineContext): Promise<void> {
  const lake = lakeById(ctx.config, lakeId);
  const rules = rulesFrom(ctx, options.rules, options.set);
  const whole = { from: options.from, to: options.to };
  const { morning } = options;
  if (morning !== undefined && (morning < whole.from || morning > whole.to))
    throw new ThawlineError(
      'usage',
      `--morning ${morning} lies outside --from ${whole.from} --to ${whole.to}.`,
    );
  const notes = await prepare(ctx, lake, whole, options.offline === true);
  const season = morning === undefined ? whole : { from: morning, to: morning };
  const days: SeasonDay[] = [];
  let last: ReplayedMorning | undefined;
  for await (const made of replaySeason(ctx, lake, season, [rules])) {
    const [document] = made.documents;
    if (document === undefined) continue;
    days.push(seasonDay(made, document));
    last = made;
  }
  const [document] = last?.documents ?? [];
  if (morning !== undefined && document !== undefined) {
    say((await renderBriefing(document, { units: options.units, form: 'full', pictures: false })).text);
    return;
  }
  const title = `${lake.name}, ${season.from} to ${season.to}`;
  if (options.out === undefined) process.stdout.write(seasonCsv(days));
  else {
    const files = { 'season.csv': seasonCsv(days), 'season.html': seasonPage(title, days, notes) };
    for (const [name, content] of Object.entries(files)) {
      writeWhole(join(options.out, name), content);
      say(join(options.out, name));
    }
  }
  for (const line of [...basisLines(days), ...notes]) process.stderr.write(`${line}\n`);
}

async function compare(lakeId: string, options: CompareOptions, ctx: PipelineContext): Promise<void> {
  const lake = lakeById(ctx.config, lakeId);
  if (options.with === undefined && options.set.length === 0)
    throw new ThawlineError(
      'usage',
      'Say what to compare with: --with <folder> of rules, --set <id=value>, or both.',
    );
  const books = [
    rulesFrom(ctx, options.rules, []),
    rulesFrom(ctx, options.with ?? options.rules, options.set),
  ];
  const season = { from: options.from, to: options.to };
  const notes = await prepare(ctx, lake, season, options.offline === true);
  const sides: [SeasonDay[], SeasonDay[]] = [[], []];
  for await (const made of replaySeason(ctx, lake, season, books)) {
    const [before, after] = made.documents;
    if (before === undefined || after === undefined) continue;
    sides[0].push(seasonDay(made, before));
    sides[1].push(seasonDay(made, after));
  }
  const differences = compareSeasons(...sides);
  const csv = compareCsv(differences);
  if (options.out === undefined) process.stdout.write(csv);
  else {
    writeWhole(join(options.out, 'compare.csv'), csv);
    say(join(options.out, 'compare.csv'));
  }
  const said = `${differences.length} of ${sides[0].length} mornings differ: ${countWords(differences)}.`;
  for (const line of [said, ...basisLines(sides[0]), ...notes]) process.stderr.write(`${line}\n`);
}

const collect = (value: string, before: readonly string[]): string[] => [...before, value];

function withSeason(command: Command): Command {
  return command
    .requiredOption('--from <date>', 'first local day, 2025-02-01')
    .requiredOption('--to <date>', 'last local day')
    .option('--rules <folder>', 'rules to advise by (default: the shipped ones with your thresholds)')
    .option('--out <dir>', 'write files into this folder instead of printing')
    .option('--offline', 'use what is in the record; ask no service');
}

/** `thawline replay`. */
export function addReplayCommand(program: Command): void {
  withSeason(program.command('replay <lake>'))
    .description(
      'the mornings of a past season, each with what it could have known: a CSV line a day, a page of ribbons',
    )
    .option('--set <id=value>', 'change a number of the rules; may be repeated', collect, [])
    .option('--morning <date>', 'print this morning of the season in full')
    .addOption(
      new Option('--units <units>', 'units of the printed morning').choices(['us', 'metric']).default('us'),
    )
    .action((lake: string, options: ReplayOptions, command: Command) =>
      withContext(command, (ctx) => replay(lake, options, ctx)),
    );
}

/** `thawline compare`. */
export function addCompareCommand(program: Command): void {
  withSeason(program.command('compare <lake>'))
    .description(
      'the days of a past season on which other rules would have said something else, and what moved them',
    )
    .option('--with <folder>', 'the other rules')
    .option('--set <id=value>', 'change a number of the other rules; may be repeated', collect, [])
    .action((lake: string, options: CompareOptions, command: Command) =>
      withContext(command, (ctx) => compare(lake, options, ctx)),
    );
}
