import type { Command } from 'commander';
import { DateTime } from 'luxon';
import { lakeById, loadConfig, type Config, type LakeConfig } from '../config/index.ts';
import { parseLengthM, parseWater, type Reading, readingQuestions, refuseAhead } from '../record/index.ts';
import { formatQuantity, ThawlineError } from '../units/index.ts';
import { HOUR_MS } from '../units/time/index.ts';
import { MAIN_LAKE } from '../vocabulary/index.ts';
import { saidQuestion } from '../words/index.ts';
import { counted } from './counted.ts';
import { readingEffect } from './readingEffect.ts';
import { configPath } from './configPath.ts';
import { readingsIn, withId } from './readingImport.ts';
import { withLake, withOpen, withRecord } from './withRecord.ts';

interface AddOptions {
  readonly at?: string;
  readonly depth: string;
  readonly where?: string;
  readonly clarity?: string;
  readonly pocket?: string;
  readonly sd: string;
  readonly yes?: boolean;
}

/** Days that the record is read back for the estimate which a reading moves. */
const VIEW_DAYS = 420;
/** Local times an angler would write; the clock alone means today. */
const TIME_FORMATS = ['HH:mm', 'H:mm', 'yyyy-LL-dd HH:mm', "yyyy-LL-dd'T'HH:mm"];

interface TakenAt {
  readonly atMs: number;
  /** What was assumed of the time that was written; '' when nothing had to be. */
  readonly note: string;
}

function parseAt(text: string | undefined, lake: LakeConfig, nowMs: number): TakenAt {
  if (text === undefined) return { atMs: nowMs, note: '' };
  if (/[+-]\d\d:?\d\d$|\dZ$/.test(text.trim())) {
    const instant = DateTime.fromISO(text.trim().replace(' ', 'T'));
    if (instant.isValid) return { atMs: instant.toMillis(), note: '' };
  }
  const { year, month, day } = DateTime.fromMillis(nowMs, { zone: lake.zone });
  for (const format of TIME_FORMATS) {
    // Read without a zone: in one, an hour that the clocks skip is silently another hour.
    const written = DateTime.fromFormat(text.trim(), format, { zone: 'utc' });
    if (!written.isValid) continue;
    const wall = format.startsWith('H') ? written.set({ year, month, day }) : written;
    const time = wall.setZone(lake.zone, { keepLocalTime: true });
    if (time.hour === wall.hour && time.minute === wall.minute) return ofTwo(time, nowMs);
    throw new ThawlineError(
      'usage',
      `--at "${text}": at ${lake.name} the clocks skip ${wall.toFormat('HH:mm')} on ${wall.toFormat('yyyy-LL-dd')}; write the time that the clock showed, such as ${time.toFormat('HH:mm')}.`,
    );
  }
  throw new ThawlineError(
    'usage',
    `--at "${text}" is not a local time: write 07:10 for today, or "2026-03-01 07:10".`,
  );
}

/** In autumn an hour happens twice: the first is taken, unless it is the second that lies just behind us, and said. */
function ofTwo(time: DateTime, nowMs: number): TakenAt {
  const [first = time, second] = time.getPossibleOffsets();
  if (second === undefined) return { atMs: first.toMillis(), note: '' };
  const recent = second.toMillis() <= nowMs && nowMs - second.toMillis() < HOUR_MS;
  const [taken, other] = recent ? [second, first] : [first, second];
  const word = (at: DateTime): string => at.toFormat("HH:mm 'UTC'ZZ");
  return {
    atMs: taken.toMillis(),
    note: `The clocks show ${time.toFormat('HH:mm')} twice on that day: taken as ${word(taken)}. If it was ${word(other)}, remove it and write --at "${other.toFormat("yyyy-LL-dd'T'HH:mmZZ")}".`,
  };
}

function parseSd(text: string): number {
  const sdC = Number(text);
  if (sdC > 0 && sdC <= 5) return sdC;
  throw new ThawlineError('usage', `--sd is the thermometer's error in degrees C, 0 to 5, not "${text}".`);
}

async function add(
  config: Config,
  lake: LakeConfig,
  temperature: string | undefined,
  options: AddOptions,
): Promise<void> {
  const nowMs = Date.now();
  if (temperature === undefined && options.clarity === undefined)
    throw new ThawlineError('usage', 'A reading needs a temperature such as 9.4C, or --clarity 0.6m.');
  const pocket = lake.pockets.find(({ id }) => id === options.pocket);
  if (options.pocket !== undefined && !pocket) {
    const known = lake.pockets.map(({ id }) => id).join(', ') || 'none';
    throw new ThawlineError('usage', `${lake.name} has no pocket "${options.pocket}" (known: ${known}).`);
  }
  const written = temperature === undefined ? undefined : parseWater(temperature);
  const { atMs, note } = parseAt(options.at, lake, nowMs);
  const reading = withId({
    lake: lake.id,
    atMs,
    ...(written === undefined ? {} : { waterC: written.waterC }),
    ...(options.clarity === undefined ? {} : { clarityM: parseLengthM(options.clarity, '--clarity') }),
    depthM: parseLengthM(options.depth, '--depth', 'm'),
    sdC: parseSd(options.sd),
    where: options.where ?? pocket?.name ?? MAIN_LAKE,
    ...(pocket === undefined ? {} : { pocket: pocket.id }),
  });
  refuseAhead(reading, nowMs);
  await withOpen(config, async (record) => {
    const view = await record.view(lake.id, Math.max(nowMs, reading.atMs), { days: VIEW_DAYS });
    const kept = view.readings.find((other) => isSame(other, reading));
    if (kept !== undefined) {
      console.log(`Known already, and kept once: ${describe(kept, lake)}.`);
      return;
    }
    const effect = readingEffect(reading, view, lake, nowMs);
    const questions = [
      ...readingQuestions(reading, view, nowMs, written).map((one) => saidQuestion(one, 'metric')),
      ...(effect.doubt === null ? [] : [effect.doubt]),
    ];
    if (questions.length > 0 && options.yes !== true)
      throw new ThawlineError(
        'usage',
        `Is this right? ${questions.join(' ')} Nothing was stored: correct it, or say it again with --yes.`,
      );
    await record.putReading(reading, nowMs);
    console.log(
      [`Stored ${describe(reading, lake)}.`, ...(note === '' ? [] : [note]), ...effect.sentences].join(' '),
    );
  });
}

/** Within this of each other two tellings of the same values at the same place are one reading, ms. */
const SAME_MS = 60_000;

const isSame = (a: Reading, b: Reading): boolean =>
  Math.abs(a.atMs - b.atMs) < SAME_MS &&
  a.waterC === b.waterC &&
  a.clarityM === b.clarityM &&
  a.depthM === b.depthM &&
  a.sdC === b.sdC &&
  a.where === b.where &&
  a.pocket === b.pocket;

function describe(reading: Reading, lake: LakeConfig): string {
  const values = [
    reading.waterC === undefined
      ? []
      : `${formatQuantity(reading.waterC, 'temperature', 'metric')} (${formatQuantity(reading.waterC, 'temperature', 'us')})`,
    reading.clarityM === undefined ? [] : `clarity ${formatQuantity(reading.clarityM, 'clarity', 'metric')}`,
  ].flat();
  const at = DateTime.fromMillis(reading.atMs, { zone: lake.zone }).toFormat('ccc yyyy-LL-dd HH:mm');
  const pocket = reading.pocket === undefined ? '' : `, pocket ${reading.pocket}`;
  return `${reading.id}: ${values.join(', ')} at ${at}, ${reading.depthM.toFixed(1)} m deep, ${reading.where}${pocket}`;
}

/** `thawline reading add|list|remove`. */
export function addReadingCommands(program: Command): void {
  const reading = program.command('reading').description('water temperatures and clarity that you measured');
  reading
    .command('add <lake> [temperature]')
    .description('store a reading, e.g. reading add pine-hollow 9.4C --at 07:10 --depth 0.3 --where ramp')
    .option('--at <time>', 'local time at the lake; now unless told')
    .option('--depth <length>', 'depth of the thermometer, m unless a unit is given', '0.3')
    .option('--where <place>', 'where on the lake; the main lake, or the pocket, unless told')
    .option('--clarity <length>', 'how deep a white disc or lure is seen, e.g. 0.6m or 2ft')
    .option('--pocket <id>', 'when it was taken in a configured pocket')
    .option('--sd <kelvin>', 'standard error of the thermometer, degrees C', '0.5')
    .option('--yes', 'it is right even if it looks odd')
    .action(async (lakeId: string, temperature: string | undefined, _: unknown, command: Command) => {
      const config = await loadConfig(configPath(command));
      await add(config, lakeById(config, lakeId), temperature, command.opts());
    });
  reading
    .command('list <lake>')
    .description('all readings, oldest first')
    .option('--json', 'as JSON')
    .action(async (lakeId: string, _: unknown, command: Command) => {
      const { json } = command.opts<{ json?: boolean }>();
      const { all, lake } = await withLake(command, lakeId, async (record, known) => ({
        all: await record.readings(known.id),
        lake: known,
      }));
      if (json === true) console.log(JSON.stringify(all, null, 2));
      else if (all.length === 0) console.log(`No reading of ${lake.name} yet.`);
      else for (const one of all) console.log(describe(one, lake));
    });
  reading
    .command('import <lake> <file>')
    .description(
      'readings from a CSV file: date, water_c or water_f, and where you have them time, depth_m, sd_c, where',
    )
    .action(async (lakeId: string, path: string, _: unknown, command: Command) => {
      const config = await loadConfig(configPath(command));
      const lake = lakeById(config, lakeId);
      const told = readingsIn(path, lake, Date.now());
      const all = [...new Map(told.map((one) => [one.id, one])).values()];
      // Told twice is told once: a reading's name comes from what it says.
      await withOpen(config, async (record) => {
        for (const one of all) await record.putReading(one);
      });
      console.log(`${counted(all.length, 'reading')} of ${lake.name}.`);
    });
  reading
    .command('remove <id>')
    .description('remove a reading that was wrong')
    .action(async (id: string, _: unknown, command: Command) => {
      if (!(await withRecord(configPath(command), (record) => record.removeReading(id))))
        throw new ThawlineError(
          'usage',
          `There is no reading "${id}": "thawline reading list <lake>" names them.`,
        );
      console.log(`Removed ${id}.`);
    });
}
