import { dirname, isAbsolute, resolve } from 'node:path';
import { existsSync } from 'node:fs';
import { ThawlineError } from '../units/index.ts';
import { configSchema, type WrittenConfig } from './schema.ts';
import type { Config, GaugeConfig, LakeConfig, PocketConfig, Shelf, TackleConfig } from './types.ts';
import { facesDeg, horizonDeg } from './place.ts';
import type { Cove } from '../shape/index.ts';
import { shapedConfig, type ShapeOf, type WatershedsOf } from './shapes.ts';
import { readYamlPatiently } from './yaml.ts';

type Written<K extends keyof WrittenConfig> = WrittenConfig[K];
type WrittenLake = Written<'lakes'>[number];

/** Leaves out the keys whose value is undefined, so that "absent" has one form only. */
function compact<T extends object>(value: T): { [K in keyof T]: Exclude<T[K], undefined> } {
  return Object.fromEntries(Object.entries(value).filter(([, entry]) => entry !== undefined)) as {
    [K in keyof T]: Exclude<T[K], undefined>;
  };
}

function tackleOf(written: Written<'tackle'>): TackleConfig {
  return {
    castLengthM: written.castLength,
    linesKg: [...written.lines].sort((a, b) => a - b),
    reels: written.reels.map((reel) => ({ name: reel.name, gear: reel.gear, spoolM: reel.spool })),
  };
}

/** Before `standsIn` there was only the wording of `where`: configurations of that time keep their meaning. */
const TOLD_ELSEWHERE = /pocket|inflow|above the lake/i;

function gaugeOf(written: WrittenLake['gauges'][number], configFile: string): GaugeConfig {
  const { depth, csv, ...rest } = written;
  return compact({
    ...rest,
    standsIn:
      rest.standsIn ??
      (rest.variable === 'water_temp' && TOLD_ELSEWHERE.test(rest.where) ? 'elsewhere' : undefined),
    depthM: depth,
    csv: csv === undefined ? undefined : compact({ ...csv, path: besides(csv.path, configFile) }),
  });
}

/** What the configuration says of a pocket, and what the outlines of lake and land say where it does not. */
function pocketOf(
  written: WrittenLake['pockets'][number],
  cove: Cove | undefined,
  landKm2: number | undefined,
): PocketConfig {
  return compact({
    id: written.id,
    name: written.name,
    landCover: written.landCover,
    areaM2: written.area ?? cove?.areaM2,
    meanDepthM: written.meanDepth,
    watershedKm2: landKm2 ?? (written.watershed === undefined ? undefined : written.watershed / 1e6),
    curveNumber: written.curveNumber,
    mouthWidthM: written.mouthWidth ?? cove?.mouthWidthM,
    channelLengthM: written.channelLength,
    slope: written.slope,
    bankDeg: written.bank,
    ...whereOf(written),
  });
}

/** Where a place lies, which way it is open, and what stands around it. */
function whereOf(written: {
  readonly position?: { readonly lat: number; readonly lon: number } | undefined;
  readonly faces?: Parameters<typeof facesDeg>[0] | undefined;
  readonly horizon?: Parameters<typeof horizonDeg>[0] | undefined;
}) {
  return compact({
    position:
      written.position === undefined
        ? undefined
        : { latDeg: written.position.lat, lonDeg: written.position.lon },
    facesDeg: written.faces === undefined ? undefined : facesDeg(written.faces),
    horizonDeg: written.horizon === undefined ? undefined : horizonDeg(written.horizon),
  });
}

function lakeOf(
  written: WrittenLake,
  configFile: string,
  shapeOf: ShapeOf,
  watershedsOf: WatershedsOf,
): LakeConfig {
  const shape = shapeOf(written.id);
  const watersheds = watershedsOf(written.id);
  return compact({
    id: written.id,
    name: written.name,
    arm: written.arm,
    language: written.language,
    clock: written.clock,
    latDeg: written.position.lat,
    lonDeg: written.position.lon,
    elevationM: written.elevation,
    zone: written.zone,
    waterBody: written.waterBody,
    riverKind: written.riverKind,
    meanDepthM: written.meanDepth,
    areaKm2: written.area / 1e6,
    bankDeg: written.bank,
    // What the outline measures counts; what somebody once measured by hand stands in where there is none.
    fetchM: shape?.longestFetchM ?? written.fetch,
    normalPoolM: written.normalPool,
    normalPoolDatum: written.normalPoolDatum,
    belowDam: written.belowDam,
    species: written.species,
    weather: written.weather,
    alerts: written.alerts,
    gauges: written.gauges.map((gauge) => gaugeOf(gauge, configFile)),
    floodGauge: written.floodGauge,
    pockets: written.pockets.map((pocket) =>
      pocketOf(
        pocket,
        shape?.places.find(({ kind, name }) => kind === 'pocket' && name === pocket.name)?.cove,
        watersheds.get(pocket.id),
      ),
    ),
    points: written.points.map((point) =>
      compact({ name: point.name, place: point.place, bankDeg: point.bank, ...whereOf(point) }),
    ),
    ramps:
      written.ramps.length === 0
        ? undefined
        : written.ramps.map((ramp) => ({ name: ramp.name, ...whereOf(ramp) })),
    horizonDeg: written.horizon === undefined ? undefined : horizonDeg(written.horizon),
    shape,
    boatMs: written.boatSpeed,
    places: written.places,
    fishing: written.fishing,
    layer:
      written.layer === undefined
        ? undefined
        : compact({ depthM: written.layer.depth, from: written.layer.from, to: written.layer.to }),
    oxygenDepthM: written.oxygenDepth,
    issueAt: written.issueAt,
    graceMinutes: written.graceMinutes,
    eveningOutlook: written.eveningOutlook,
    demo: written.demo,
  });
}

/** Where the configuration is looked for when no file is named. */
const DEFAULT_CONFIG = 'config/thawline.yaml';

/**
 * A file that the configuration names lies beside it and never depends on the folder a command is given in. One that an
 * earlier version found in the working folder is taken from there.
 */
function besides(written: string, configFile: string): string {
  if (isAbsolute(written)) return written;
  const beside = resolve(dirname(configFile), written);
  const here = resolve(written);
  return !existsSync(beside) && existsSync(here) ? here : beside;
}

const recordAt = (written: string, configFile: string): string =>
  written === ':memory:' || written.startsWith('postgres:') ? written : besides(written, configFile);

/**
 * Read, check and normalise the configuration.
 *
 * @param path file; default: the THAWLINE_CONFIG environment variable, else `config/thawline.yaml`
 * @param shelf where shapes that were computed before may be found; without it all are computed
 * @throws ThawlineError `config` with file, line, column, what was found and what is expected
 */
export async function loadConfig(path?: string, shelf?: Shelf): Promise<Config> {
  const file = path ?? process.env['THAWLINE_CONFIG'] ?? DEFAULT_CONFIG;
  if (!existsSync(file))
    throw new ThawlineError(
      'config',
      `${file}: no such file. Copy config/thawline.example.yaml to ${DEFAULT_CONFIG} and edit it, or name a file with --config.`,
    );
  const recordOf = (written: WrittenConfig): string =>
    process.env['THAWLINE_RECORD'] ?? recordAt(written.record, file);
  const { schema, shapeOf, watershedsOf, made } = shapedConfig(
    configSchema,
    file,
    async (written, lakes) => (await shelf?.(recordOf(written), lakes)) ?? [],
  );
  const written = await readYamlPatiently(file, schema);
  return {
    path: file,
    ...(made.length === 0 ? {} : { made }),
    lakes: written.lakes.map((lake) => lakeOf(lake, file, shapeOf, watershedsOf)),
    readers: written.readers.map((reader) => {
      const { tackle, ...rest } = reader;
      return compact({
        ...rest,
        tackle: tackle === undefined ? undefined : tackleOf(tackle),
      });
    }),
    tackle: tackleOf(written.tackle),
    mail: compact(written.mail),
    web: written.web,
    webhooks: written.webhooks.map(compact),
    services: { ...written.services, baseUrls: compact(written.services.baseUrls) },
    recordPath: recordOf(written),
    thresholds: written.thresholds,
  };
}

/** The lake of that id. @throws ThawlineError `usage` that lists the known lakes. */
export function lakeById(config: Config, lakeId: string): LakeConfig {
  const lake = config.lakes.find((candidate) => candidate.id === lakeId);
  if (lake) return lake;
  throw new ThawlineError(
    'usage',
    `No lake "${lakeId}" in ${config.path}. Known lakes: ${config.lakes.map((known) => known.id).join(', ')}.`,
  );
}
