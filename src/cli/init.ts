import { existsSync } from 'node:fs';
import { dirname, join, relative, resolve } from 'node:path';
import type { Command } from 'commander';
import { IANAZone } from 'luxon';
import {
  baseUrl,
  createClient,
  findPlaces,
  floodGaugesNearby,
  GEOCODING_BASE,
  officeOf,
  placeFacts,
  gaugesNearby,
  nearestFirst,
  servicesAround,
  type FloodGauge,
  type FoundPlace,
  type GaugeNearby,
  type HttpClient,
  type Office,
} from '../services/index.ts';
import { mailAddress, readQuantity, ThawlineError } from '../units/index.ts';
import { loadConfig } from '../config/index.ts';
import { serviceRow, WATER_BODIES } from '../vocabulary/index.ts';
import { configPath } from './context.ts';
import { gaugeLine, idOf, suggested, type InitAnswers } from './initAnswers.ts';
import { configText, onceUnit, serviceUnit, timerUnit } from './initFiles.ts';
import { progress, say, writeWhole } from './output.ts';
import { shipped } from './paths.ts';

interface Options {
  readonly name?: string;
  readonly place?: string;
  readonly lat?: string;
  readonly lon?: string;
  readonly zone?: string;
  readonly waterBody: string;
  readonly meanDepth?: string;
  readonly area?: string;
  readonly normalPool?: string;
  readonly fetch?: string;
  readonly outline?: string;
  readonly within: string;
  readonly reader?: string;
  readonly contact?: string;
  readonly from?: string;
  readonly smtp?: boolean;
  readonly baseUrl: string;
  readonly listen: string;
  readonly issueAt: string;
  readonly service: string[];
  readonly lookUp: boolean;
  readonly yes?: boolean;
  readonly force?: boolean;
}

type Judge = (answer: string) => string | null;

const wrongContact: Judge = (text) =>
  mailAddress(text.trim()) === null && !URL.canParse(text.trim())
    ? `"${text}" is neither a mail nor a web address.`
    : null;

/** A quantity without its unit, or with one of something else. */
const wrongQuantity =
  (dimension: 'length' | 'area'): Judge =>
  (text) => {
    const read = readQuantity(text, dimension);
    return 'problem' in read ? read.problem : null;
  };

/** Asks a person, one question after the other; where nobody is there, what was given has to do. */
interface Asker {
  /** @param wrong why an answer cannot be taken; null where it can: a person is asked again at once */
  text(question: string, given: string | undefined, usual?: string, wrong?: Judge): Promise<string>;
  one<T>(question: string, choices: readonly T[], label: (choice: T) => string): Promise<T | undefined>;
  many<T>(
    question: string,
    choices: readonly T[],
    usual: readonly T[],
    label: (choice: T) => string,
  ): Promise<T[]>;
}

/** Asked by init alone, so no service of the configuration. */
const GEOCODING = 'open-meteo-geocoding';

const isTerminal = (): boolean => process.stdin.isTTY;

const missing = (question: string): ThawlineError =>
  new ThawlineError(
    'usage',
    `init needs to know: ${question}. Give it as an option (thawline init --help names them), or run it on a terminal without --yes and be asked.`,
  );

const nobody: Asker = {
  text: (question, given, usual) => {
    const answer = given ?? usual;
    return answer === undefined ? Promise.reject(missing(question)) : Promise.resolve(answer);
  },
  one: (_question, choices) => Promise.resolve(choices[0]),
  many: (_question, _choices, usual) => Promise.resolve([...usual]),
};

async function person(): Promise<Asker> {
  const ask = await import('@clack/prompts');
  type Cancelled = ReturnType<typeof ask.text> extends Promise<infer A> ? Exclude<A, string> : never;
  const answered = <T>(answer: T | Cancelled): T => {
    if (ask.isCancel(answer)) throw new ThawlineError('usage', 'Stopped; nothing was written.');
    return answer;
  };
  return {
    text: async (message, given, usual, wrong) =>
      given ??
      answered(
        await ask.text({
          message,
          ...(usual === undefined ? {} : { placeholder: usual, defaultValue: usual }),
          validate: (text) => {
            const answer = text?.trim() ?? '';
            if (answer === '') return usual === undefined ? 'This is needed.' : undefined;
            return wrong?.(answer) ?? undefined;
          },
        }),
      ),
    one: async (message, choices, label) => {
      if (choices.length < 2) return choices[0];
      const options = choices.map((choice, value) => ({ value, label: label(choice) }));
      return choices[answered(await ask.select({ message, options }))];
    },
    many: async (message, choices, usual, label) => {
      if (choices.length === 0) return [];
      const options = choices.map((choice, value) => ({ value, label: label(choice) }));
      const initialValues = usual.map((choice) => choices.indexOf(choice));
      const taken = answered(await ask.multiselect({ message, options, initialValues, required: false }));
      return taken.flatMap((index) => choices[index] ?? []);
    },
  };
}

/** A look-up whose failure costs a comment in the file and nothing else. */
async function tried<T>(what: string, work: Promise<T>, otherwise: T): Promise<T> {
  try {
    return await work;
  } catch (error) {
    if (!(error instanceof ThawlineError)) throw error;
    say(`${what}: not known. ${error.message}`);
    return otherwise;
  }
}

function degrees(text: string, name: string, most: number): number {
  const value = Number(text);
  if (text.trim() !== '' && Math.abs(value) <= most) return value;
  throw new ThawlineError(
    'usage',
    `${name}: found "${text}", expected decimal degrees from -${most} to ${most}; west and south are negative.`,
  );
}

interface Position {
  readonly latDeg: number;
  readonly lonDeg: number;
  readonly zone?: string | null;
  readonly elevationM?: number | null;
}

async function positionOf(options: Options, client: HttpClient, ask: Asker, bases: Bases): Promise<Position> {
  if (options.lat !== undefined && options.lon !== undefined)
    return { latDeg: degrees(options.lat, '--lat', 66), lonDeg: degrees(options.lon, '--lon', 180) };
  const given = options.place;
  const text = await ask.text('a place name near the lake, or its position as "35.9, -86.4"', given);
  const [lat, lon, ...more] = text.split(',').map((part) => part.trim());
  if (
    more.length === 0 &&
    lon !== undefined &&
    lat !== undefined &&
    /^[-+\d.]+$/.test(lat) &&
    /^[-+\d.]+$/.test(lon)
  )
    return { latDeg: degrees(lat, 'latitude', 66), lonDeg: degrees(lon, 'longitude', 180) };
  const found = await findPlaces(client, text, bases[GEOCODING] ?? GEOCODING_BASE);
  const place: FoundPlace | undefined = await ask.one(
    'Which one?',
    found,
    ({ name, within, latDeg, lonDeg }) => `${name}, ${within} (${latDeg}, ${lonDeg})`,
  );
  if (place === undefined)
    throw new ThawlineError(
      'usage',
      `No place named "${text}" is known: give the position with --lat and --lon.`,
    );
  say(`${place.name}, ${place.within}: ${place.latDeg}, ${place.lonDeg}`);
  return place;
}

type Bases = Readonly<Record<string, string>>;

function basesOf(pairs: readonly string[]): Bases {
  return Object.fromEntries(
    pairs.map((pair): [string, string] => {
      const at = pair.indexOf('=');
      if (at < 1 || !URL.canParse(pair.slice(at + 1)))
        throw new ThawlineError(
          'usage',
          `--service: found "${pair}", expected name=address, such as usgs=http://127.0.0.1:9000.`,
        );
      return [pair.slice(0, at), pair.slice(at + 1)];
    }),
  );
}

/** Decides the waves; an outline tells it too, so only one of them is asked for. */
async function openWater(options: Options, ask: Asker): Promise<Pick<InitAnswers, 'fetch' | 'outline'>> {
  const { fetch, outline } = options;
  if (fetch !== undefined || outline !== undefined) return { fetch: fetch ?? '', outline: outline ?? '' };
  const shore = await ask.text(
    'a GeoJSON file of its shore, relative to the configuration (nothing: none)',
    undefined,
    '',
  );
  if (shore.trim() !== '') return { fetch: '', outline: shore.trim() };
  const open = await ask.text(
    'the longest open water the wind can blow along, such as 3.5 mi (nothing: not known, no waves are estimated)',
    undefined,
    '',
  );
  return { fetch: open.trim(), outline: '' };
}

async function lookUp(
  options: Options,
  at: Position,
  client: HttpClient,
  bases: Bases,
): Promise<{
  gauges: GaugeNearby[];
  office: Office | null;
  flood: FloodGauge[];
  zone?: string;
  elevationM?: number;
}> {
  if (!options.lookUp) return { gauges: [], office: null, flood: [] };
  const settings = { baseUrls: bases } as Parameters<typeof baseUrl>[0];
  const around = { latDeg: at.latDeg, lonDeg: at.lonDeg, halfKm: Number(options.within) };
  if (!(around.halfKm > 0 && around.halfKm <= 100))
    throw new ThawlineError(
      'usage',
      `--within: found "${options.within}", expected kilometres from 1 to 100.`,
    );
  const key = process.env['THAWLINE_USGS_KEY'];
  const headers = key === undefined || key === '' ? {} : { 'x-api-key': key };
  const [facts, gauges, office, flood] = await Promise.all([
    tried(
      'Zone and elevation',
      placeFacts(client, baseUrl(settings, 'open-meteo'), at.latDeg, at.lonDeg),
      null,
    ),
    Promise.all(
      servicesAround(around).map((service) =>
        tried(
          `Gauges of ${serviceRow(service).gaugeName}`,
          gaugesNearby(service, client, baseUrl(settings, service), around, Date.now(), headers),
          [],
        ),
      ),
    ).then((found) => nearestFirst(found.flat())),
    tried('Forecast office', officeOf(client, baseUrl(settings, 'nws'), at.latDeg, at.lonDeg), null),
    tried('Flood gauges', floodGaugesNearby(client, baseUrl(settings, 'nwps'), around), []),
  ]);
  return { gauges, office, flood, ...(facts ?? {}) };
}

function zoneOf(options: Options, ...found: (string | null | undefined)[]): string | undefined {
  if (options.zone !== undefined && !IANAZone.isValidZone(options.zone))
    throw new ThawlineError(
      'usage',
      `--zone: found "${options.zone}", expected an IANA zone such as America/Chicago.`,
    );
  return (
    options.zone ??
    found.find((zone): zone is string => typeof zone === 'string' && IANAZone.isValidZone(zone))
  );
}

/** What cannot be looked up, told all at once where nobody can be asked. */
function refuseIncomplete(o: Options): void {
  const needed: readonly (readonly [boolean, string])[] = [
    [o.name === undefined, '--name (the name of the lake)'],
    [
      o.place === undefined && (o.lat === undefined || o.lon === undefined),
      '--place (a place near it), or --lat and --lon',
    ],
    [o.meanDepth === undefined, '--mean-depth (such as "42 ft")'],
    [o.area === undefined, '--area (such as "6200 acres")'],
    [
      o.contact === undefined && o.reader === undefined,
      '--contact (an address at which services can reach you), or --reader',
    ],
  ];
  const misses = needed.flatMap(([isMissing, what]) => (isMissing ? [what] : []));
  if (misses.length === 0) return;
  const why =
    o.yes === true
      ? 'leave --yes out and be asked'
      : 'run it on a terminal and be asked; this input is none, so nothing was asked';
  throw new ThawlineError('usage', `init misses ${misses.join('; ')}. Give them as options, or ${why}.`);
}

async function answers(options: Options, ask: Asker, client: HttpClient, bases: Bases): Promise<InitAnswers> {
  const name = await ask.text('the name of the lake', options.name);
  const at = await positionOf(options, client, ask, bases);
  progress()?.('Looking for gauges, office and zone...');
  const found = await lookUp(options, at, client, bases);
  const zone =
    zoneOf(options, found.zone, at.zone) ??
    (await ask.text('its IANA time zone, such as America/Chicago', options.zone));
  const gauges = await ask.many('Which gauges?', found.gauges, suggested(found.gauges), gaugeLine);
  const contact = await ask.text(
    'a mail address at which services can reach you',
    options.contact ?? options.reader,
    undefined,
    wrongContact,
  );
  const problem = wrongContact(contact);
  if (problem !== null) throw new ThawlineError('usage', `--contact: ${problem}`);
  const baseUrls = Object.fromEntries(Object.entries(bases).filter(([name]) => name !== GEOCODING));
  return {
    id: idOf(name),
    name,
    latDeg: at.latDeg,
    lonDeg: at.lonDeg,
    zone,
    elevationM: found.elevationM ?? at.elevationM ?? null,
    waterBody: options.waterBody,
    meanDepth: await ask.text(
      'its mean depth with unit, such as 42 ft',
      options.meanDepth,
      undefined,
      wrongQuantity('length'),
    ),
    area: await ask.text(
      'its area with unit, such as 6200 acres',
      options.area,
      undefined,
      wrongQuantity('area'),
    ),
    ...(options.normalPool === undefined ? {} : { normalPool: options.normalPool }),
    ...(await openWater(options, ask)),
    gauges,
    others: found.gauges.filter((gauge) => !gauges.includes(gauge)).slice(0, 12),
    office: found.office,
    floodGauge: found.flood[0] ?? null,
    ...(options.reader === undefined ? {} : { reader: options.reader }),
    contact,
    mailFrom:
      options.from ??
      (mailAddress(contact) === null ? 'Thawline <briefing@localhost>' : `${name} briefing <${contact}>`),
    transport: options.smtp === true ? 'smtp' : 'directory',
    baseUrl: options.baseUrl,
    listen: options.listen,
    issueAt: options.issueAt,
    baseUrls,
  };
}

const collect = (value: string, before: string[]): string[] => [...before, value];

export function addInitCommand(program: Command): void {
  program
    .command('init')
    .description('look a lake up and write the configuration and the service units for it')
    .option('--name <name>', 'name of the lake')
    .option('--place <name>', 'place near it, looked up; or --lat and --lon')
    .option('--lat <degrees>', 'latitude, decimal degrees')
    .option('--lon <degrees>', 'longitude, decimal degrees, west is negative')
    .option('--zone <zone>', 'IANA time zone, where it cannot be looked up')
    .option('--water-body <kind>', WATER_BODIES.join(', '), 'highland-reservoir')
    .option('--mean-depth <length>', 'with its unit: "42 ft"')
    .option('--area <area>', 'with its unit: "6200 acres"')
    .option('--normal-pool <length>', 'with its unit')
    .option(
      '--fetch <length>',
      'longest open water the wind can blow along, with its unit: decides the waves',
    )
    .option(
      '--outline <file>',
      'GeoJSON of the shore, relative to the configuration; tells the open water too',
    )
    .option('--within <km>', 'how far to look for gauges', '20')
    .option('--reader <address>', 'your own address, as the first reader')
    .option('--contact <address>', 'where services can reach you')
    .option('--from <sender>', 'sender of the mails: "River desk <desk@example.org>"')
    .option('--issue-at <time>', 'local time of the briefing', '05:15')
    .option('--smtp', 'mail through the server named by THAWLINE_SMTP_URL; without it mails become files')
    .option('--base-url <address>', 'what links in mails begin with', 'http://127.0.0.1:8080')
    .option('--listen <address>', 'where run serves the pages', '127.0.0.1')
    .option(
      '--service <name=address>',
      'another address of a service, as for a mirror; repeatable',
      collect,
      [],
    )
    .option('--no-look-up', 'ask no service')
    .option('--yes', 'ask nothing: take what was given and what is usual')
    .option('--force', 'overwrite files that exist')
    .action(async (options: Options, command: Command) => {
      const file = resolve(configPath(command) ?? process.env['THAWLINE_CONFIG'] ?? 'config/thawline.yaml');
      const folder = dirname(file);
      const files = {
        config: file,
        service: join(folder, 'units', 'thawline.service'),
        once: join(folder, 'units', 'thawline-once.service'),
        timer: join(folder, 'units', 'thawline-once.timer'),
      };
      const there = Object.values(files).filter((path) => existsSync(path));
      if (there.length > 0 && options.force !== true)
        throw new ThawlineError(
          'usage',
          `${there.map((path) => relative('', path) || path).join(', ')}: exists already and is kept. Say --force to write it anew.`,
        );
      const bases = basesOf(options.service);
      const client = createClient({ contact: options.contact ?? '', timeoutMs: 20_000, parallelPerHost: 2 });
      try {
        const isAlone = options.yes === true || !isTerminal();
        if (isAlone) refuseIncomplete(options);
        const a = await answers(options, isAlone ? nobody : await person(), client, bases);
        const data = join(folder, 'data');
        writeWhole(files.config, configText(a, join(data, 'thawline.sqlite'), data));
        const installed = { node: process.execPath, main: shipped('dist/cli/main.js'), config: file, data };
        writeWhole(files.service, serviceUnit(installed));
        writeWhole(files.once, onceUnit(installed));
        writeWhole(files.timer, timerUnit());
        // What was written must be what is read.
        await loadConfig(files.config);
        for (const path of Object.values(files)) say(path);
        say(
          `${a.gauges.length} gauges, zone ${a.zone}, alerts ${a.office === null ? 'not found' : a.office.office}.`,
        );
        say('Next: thawline check, then thawline run.');
      } finally {
        await client.close();
      }
    });
}
