import type { Command } from 'commander';
import { DateTime, IANAZone } from 'luxon';
import type { LakeConfig } from '../config/index.ts';
import type { RecordStore, Release, ToldRelease } from '../record/index.ts';
import { formatQuantity, ThawlineError } from '../units/index.ts';
import { DAY_MS } from '../units/time/index.ts';
import { counted } from './counted.ts';
import { say } from './output.ts';
import { overlapOf, parseFlow, parseUnits, releaseOf, releasesIn } from './releaseInput.ts';
import { withLake } from './withRecord.ts';

/** @throws ThawlineError `usage` for a name that is no zone */
function zoneOf(written: string | undefined, lake: LakeConfig): string {
  if (written === undefined) return lake.zone;
  if (IANAZone.isValidZone(written)) return written;
  throw new ThawlineError('usage', `--zone: found "${written}", expected a zone such as America/Chicago.`);
}

const muchWords = ({ flowM3s, units }: Release): string =>
  (flowM3s ?? units ?? 0) === 0
    ? 'no release'
    : [
        ...(flowM3s === undefined
          ? []
          : [`${formatQuantity(flowM3s, 'flow', 'metric')} (${formatQuantity(flowM3s, 'flow', 'us')})`]),
        ...(units === undefined ? [] : [`${units} ${units === 1 ? 'unit' : 'units'}`]),
      ].join(', ');

function describe(release: Release, { zone }: LakeConfig): string {
  const from = DateTime.fromMillis(release.fromMs, { zone });
  // The end of a day is 24:00 of it and not 00:00 of the next.
  const to = DateTime.fromMillis(release.toMs, { zone });
  const end =
    to.toMillis() === from.plus({ days: 1 }).startOf('day').toMillis() ? '24:00' : to.toFormat('HH:mm');
  return `${release.id}: ${from.toFormat('ccc yyyy-LL-dd HH:mm')} to ${end} ${from.setLocale('en-US').toFormat('ZZZZ')}, ${muchWords(release)}`;
}

/** What stands already and says something else of the same time. */
function against(standing: readonly ToldRelease[], add: readonly Release[], lake: LakeConfig): void {
  const told = new Set(standing.map(({ id }) => id));
  const overlap = overlapOf([...standing, ...add.filter(({ id }) => !told.has(id))]);
  if (overlap === null) return;
  const [earlier, later] = told.has(overlap[0].id) ? overlap : [overlap[1], overlap[0]];
  throw new ThawlineError(
    'usage',
    `${describe(later, lake)} overlaps ${describe(earlier, lake)}, which was told before. Nothing was stored: remove that one, or say it again with --replace.`,
  );
}

interface AddOptions {
  readonly flow?: string;
  readonly units?: string;
  readonly zone?: string;
  readonly replace?: boolean;
}

async function add(
  record: RecordStore,
  lake: LakeConfig,
  [date, from, to]: readonly [string, string, string],
  options: AddOptions,
): Promise<void> {
  if (options.flow === undefined && options.units === undefined)
    throw new ThawlineError(
      'usage',
      'Say how much: --flow 4200cfs, or --units 2; 0 says that no water runs.',
    );
  if (!/^\d{4}-\d{2}-\d{2}$/.test(date) || !DateTime.fromISO(date).isValid)
    throw new ThawlineError('usage', `date: found "${date}", expected a local date like 2026-07-16.`);
  const nowMs = Date.now();
  const written = {
    date,
    from,
    to,
    ...(options.flow === undefined ? {} : { flowM3s: parseFlow(options.flow) }),
    ...(options.units === undefined ? {} : { units: parseUnits(options.units) }),
  };
  const read = releaseOf(lake.id, written, zoneOf(options.zone, lake), nowMs);
  if ('field' in read)
    throw new ThawlineError(
      'usage',
      `${read.field}: found "${written[read.field]}", expected ${read.expected}; ${read.remedy}.`,
    );
  const { release, note } = read;
  const standing = await record.releases(lake.id, release.fromMs, nowMs);
  const touched = standing.filter((one) => one.fromMs < release.toMs && one.id !== release.id);
  if (options.replace !== true) against(touched, [release], lake);
  await record.changeReleases({ add: [release], takeBack: touched.map(({ id }) => id) }, nowMs);
  say([`Stored ${describe(release, lake)}.`, ...(note === '' ? [] : [note])].join(' '));
}

async function importTable(
  record: RecordStore,
  lake: LakeConfig,
  path: string,
  options: AddOptions,
): Promise<void> {
  const nowMs = Date.now();
  const table = releasesIn(path, lake.id, zoneOf(options.zone, lake), nowMs);
  const standing = await record.releases(lake.id, table.fromMs, nowMs);
  const touched = standing.filter(({ fromMs }) => fromMs < table.toMs);
  if (options.replace !== true) against(touched, table.releases, lake);
  const takeBack = options.replace === true ? touched.map(({ id }) => id) : [];
  await record.changeReleases({ add: table.releases, takeBack }, nowMs);
  say(
    [
      `${counted(table.releases.length, 'stretch', 'stretches')} of release of ${lake.name}, ${describeSpan(table, lake)}.`,
      ...table.notes,
    ].join(' '),
  );
}

function describeSpan({ fromMs, toMs }: { fromMs: number; toMs: number }, { zone }: LakeConfig): string {
  const day = (ms: number): string => DateTime.fromMillis(ms, { zone }).toFormat('yyyy-LL-dd');
  return `${day(fromMs)} to ${day(toMs - 1)}`;
}

/** `thawline release add|import|list|remove`. */
export function addReleaseCommands(program: Command): void {
  const release = program
    .command('release')
    .description('hours of release that the operator of the dam told');
  const zoneWords = 'zone that the times are written in; that of the lake unless told';
  release
    .command('add <lake> <date> <from> <to>')
    .description(
      'store hours of one local date, e.g. release add pine-hollow 2026-07-16 14:00 18:00 --units 2',
    )
    .option('--flow <flow>', 'how much runs, with its unit: 120m3/s or 4200cfs; 0cfs says that none does')
    .option('--units <number>', 'how many turbines run; 0 says that none does')
    .option('--zone <zone>', zoneWords)
    .option('--replace', 'in place of what was told before of these hours')
    .action(
      async (lakeId: string, date: string, from: string, to: string, options: AddOptions, command: Command) =>
        withLake(command, lakeId, (record, lake) => add(record, lake, [date, from, to], options)),
    );
  release
    .command('import <lake> <file>')
    .description("an operator's table as CSV: date, from, to, and flow_m3s, flow_cfs or units")
    .option('--zone <zone>', zoneWords)
    .option('--replace', 'in place of all that was told before of the dates from its first to its last')
    .action(async (lakeId: string, path: string, options: AddOptions, command: Command) =>
      withLake(command, lakeId, (record, lake) => importTable(record, lake, path, options)),
    );
  release
    .command('list <lake>')
    .description('hours from yesterday on; all that was told with --all')
    .option('--all', 'also what is long past')
    .option('--json', 'as JSON')
    .action(async (lakeId: string, options: { all?: boolean; json?: boolean }, command: Command) =>
      withLake(command, lakeId, async (record, lake) => {
        const nowMs = Date.now();
        const told = await record.releases(lake.id, options.all === true ? 0 : nowMs - DAY_MS, nowMs);
        if (options.json === true) say(JSON.stringify(told, null, 2));
        else if (told.length === 0) say(`No release of ${lake.name} is told.`);
        else for (const one of told) say(describe(one, lake));
      }),
    );
  release
    .command('remove <lake> <id>')
    .description('take hours back; mornings before keep what they were told')
    .action(async (lakeId: string, id: string, _: unknown, command: Command) =>
      withLake(command, lakeId, async (record, lake) => {
        const nowMs = Date.now();
        const told = await record.releases(lake.id, 0, nowMs);
        if (!told.some((one) => one.id === id))
          throw new ThawlineError(
            'usage',
            `There is no release "${id}": \`thawline release list ${lake.id} --all\` names them.`,
          );
        await record.changeReleases({ add: [], takeBack: [id] }, nowMs);
        say(`Removed ${id}.`);
      }),
    );
}
