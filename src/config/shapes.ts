/** Outlines that the configuration names: read, checked against what it says of the lake, and its places put on them. */
import { readFileSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import type { z } from 'zod';
import {
  afloat,
  coveOf,
  DIRECTIONS,
  fetchesM,
  isInside,
  nearestBank,
  opensDeg,
  readOutline,
  ShapeError,
  simplified,
  spotOf,
  towards,
  waysBetween,
  type Outline,
  type Spot,
} from '../shape/index.ts';
import type { PlaceId } from '../vocabulary/index.ts';
import { facesDeg } from './place.ts';
import { keptLakeShape, keyOf } from './keptShape.ts';
import { watershedsOfLake } from './watersheds.ts';
import type { configSchema, WrittenConfig } from './schema.ts';
import type { KeptShape, LakeShape, ShapedPlace } from './types.ts';

/** The shape of a lake by its id; undefined where it has no outline. */
export type ShapeOf = (lakeId: string) => LakeShape | undefined;
/** Land that drains into the pockets of a lake, km2, by their id, where they name its outline. */
export type WatershedsOf = (lakeId: string) => ReadonlyMap<string, number>;

type WrittenLake = WrittenConfig['lakes'][number];
type Path = (string | number)[];
type Problem = (path: Path, message: string) => void;

/** Share by which the outline's area may differ from the configured one: pools rise and fall (common practice, no source). */
const AREA_OFF_SHARE = 0.25;
/** Farthest from the water, or for a place on the bank from the shore, m. */
const MOST_OFF_M = 200;

/** Kinds of place that lie at the shore; the others may lie anywhere in the water. */
const ON_BANK: ReadonlySet<PlaceId> = new Set<PlaceId>([
  'bluff',
  'main_point',
  'secondary_point',
  'inflow',
  'riprap',
  'dock',
  'laydown',
  'grass_edge',
  'emergent',
  'pads',
  'bridge',
  'marina',
  'pond_dam',
  'pocket',
]);

/** Shapes that were made, by what they were made from: a process that reads its configuration again makes none twice. */
const MADE = new Map<string, LakeShape>();
const MADE_MOST = 40;

/** What was kept of one lake before, and where what is computed now is put. */
export interface Shelves {
  readonly find: (part: string, key: string) => string | undefined;
  readonly put: (part: string, key: string, body: string) => void;
}

/** The schema of a configuration with its outlines read and checked, and what came of it. */
export interface ShapedConfig {
  /** To be parsed asynchronously. */
  readonly schema: typeof configSchema;
  readonly shapeOf: ShapeOf;
  readonly watershedsOf: WatershedsOf;
  /** What was not found among what was kept, for who keeps it. */
  readonly made: readonly KeptShape[];
}

const hasFiles = ({ outline, pockets }: WrittenLake): boolean =>
  outline !== undefined || pockets.some(({ watershedOutline }) => watershedOutline !== undefined);

/**
 * @param file configuration: outlines lie relative to it
 * @param keptOf what was kept of these lakes; asked only where a file is named
 */
export function shapedConfig(
  base: typeof configSchema,
  file: string,
  keptOf: (written: WrittenConfig, lakes: readonly string[]) => Promise<readonly KeptShape[]>,
): ShapedConfig {
  const shapes = new Map<string, LakeShape>();
  const watersheds = new Map<string, ReadonlyMap<string, number>>();
  const made: KeptShape[] = [];
  const schema = base.superRefine(async (written, context: Pick<z.RefinementCtx, 'addIssue'>) => {
    const ids = written.lakes.filter(hasFiles).map(({ id }) => id);
    const kept = ids.length === 0 ? [] : await keptOf(written, ids);
    written.lakes.forEach((lake, n) => {
      const problem: Problem = (path, message) => {
        context.addIssue({ code: 'custom', path: ['lakes', n, ...path], message });
      };
      const shelves: Shelves = {
        find: (part, key) =>
          kept.find((one) => one.lake === lake.id && one.part === part && one.key === key)?.body,
        put: (part, key, body) => void made.push({ lake: lake.id, part, key, body }),
      };
      const shape = shapeOfLake(lake, dirname(file), shelves, problem);
      if (shape !== null) shapes.set(lake.id, shape);
      watersheds.set(lake.id, watershedsOfLake(lake, dirname(file), shelves, problem));
    });
  });
  return {
    schema,
    shapeOf: (id) => shapes.get(id),
    watershedsOf: (id) => watersheds.get(id) ?? new Map<string, number>(),
    made,
  };
}

function shapeOfLake(
  lake: WrittenLake,
  folder: string,
  shelves: Shelves,
  problem: Problem,
): LakeShape | null {
  if (lake.outline === undefined) return null;
  const path = resolve(folder, lake.outline);
  let file: Buffer;
  try {
    file = readFileSync(path);
  } catch {
    problem(['outline'], `${path} cannot be read. Put the file there, or correct the path.`);
    return null;
  }
  const key = keyOf(file, lake.position, lake.area, lake.pockets, lake.points, lake.ramps);
  const kept = shelves.find('', key);
  const put = kept === undefined ? null : keptLakeShape(kept);
  const known = put ?? MADE.get(key) ?? null;
  try {
    const shape = known ?? madeOf(file.toString('utf8'), lake, problem);
    if (shape === null) return null;
    if (put === null) shelves.put('', key, JSON.stringify(shape));
    if (known === null) {
      const [oldest] = MADE.keys();
      if (MADE.size >= MADE_MOST && oldest !== undefined) MADE.delete(oldest);
      MADE.set(key, shape);
    }
    return shape;
  } catch (error) {
    if (!(error instanceof ShapeError)) throw error;
    problem(['outline'], `${path}: ${error.message}`);
    return null;
  }
}

/** Points of a drawing that is 600 pixels wide. */
const DRAWN_POINTS = 360;

/** @throws ShapeError for what is no outline; what does not fit to the lake is told to `problem` */
function madeOf(text: string, lake: WrittenLake, problem: Problem): LakeShape | null {
  const outline = readOutline(text, { latDeg: lake.position.lat, lonDeg: lake.position.lon });
  let isWell = true;
  const told: Problem = (where, message) => {
    isWell = false;
    problem(where, message);
  };
  checkLake(lake, outline, told);
  const places = placesOf(lake, outline, told);
  if (!isWell) return null;
  const openFetchesM = openFetchesOf(outline, places);
  const { areaM2, rings, pointsRead, pointsKept } = outline;
  return {
    outline: { areaM2, shores: rings.length, pointsRead, pointsKept },
    drawn: simplified(rings, DRAWN_POINTS).map((ring) =>
      ring.map(([east, north]) => [Math.round(east), Math.round(north)] as const),
    ),
    places,
    openFetchesM,
    longestFetchM: Math.max(...openFetchesM),
    waysM: waysM(outline, places),
  };
}

function waysM(outline: Outline, places: readonly ShapedPlace[]): (number | null)[][] {
  const table = places.map(() => places.map((): number | null => 0));
  waysBetween(
    outline,
    places.map(({ at }) => at),
  ).forEach((ways, i) => {
    ways.forEach((way, j) => {
      for (const [a, b] of [
        [i, j],
        [j, i],
      ] as const) {
        const row = table[a];
        if (row !== undefined) row[b] = way === null ? null : Math.round(way.distanceM);
      }
    });
  });
  return table;
}

const km2 = (m2: number): string => `${Number((m2 / 1e6).toPrecision(3))} km2`;
const metres = (m: number): string => (m < 1000 ? `${Math.round(m)} m` : `${(m / 1000).toFixed(1)} km`);

function checkLake(lake: WrittenLake, outline: Outline, problem: Problem): void {
  const off = outline.areaM2 / lake.area - 1;
  if (Math.abs(off) > AREA_OFF_SHARE)
    problem(
      ['outline'],
      `it encloses ${km2(outline.areaM2)}, but area says ${km2(lake.area)} (${Math.abs(Math.round(off * 100))} % ${off > 0 ? 'more' : 'less'}). Correct the area, or export the outline of this lake at its normal pool.`,
    );
  const spot = spotOf(outline, lake.position.lat, lake.position.lon);
  if (!isInside(outline.rings, spot))
    problem(
      ['position'],
      `it lies ${metres(nearestBank(outline, spot).distanceM)} outside of the outline. Give a position on the water.`,
    );
}

interface WrittenPlace {
  readonly name: string;
  readonly kind: ShapedPlace['kind'];
  readonly onBank: boolean;
  readonly position?: { readonly lat: number; readonly lon: number } | undefined;
  readonly faces?: Parameters<typeof facesDeg>[0] | undefined;
  readonly path: Path;
}

function placesOf(lake: WrittenLake, outline: Outline, problem: Problem): ShapedPlace[] {
  const written: WrittenPlace[] = [
    ...lake.pockets.map((one, i) => ({
      ...one,
      kind: 'pocket' as const,
      onBank: true,
      path: ['pockets', i],
    })),
    ...lake.points.map((one, i) => ({
      ...one,
      kind: 'point' as const,
      onBank: ON_BANK.has(one.place),
      path: ['points', i],
    })),
    ...lake.ramps.map((one, i) => ({ ...one, kind: 'ramp' as const, onBank: true, path: ['ramps', i] })),
  ];
  return written.flatMap((place) => {
    if (place.position === undefined) return [];
    const at = spotOf(outline, place.position.lat, place.position.lon);
    const bank = nearestBank(outline, at);
    const isIn = isInside(outline.rings, at);
    if (bank.distanceM > MOST_OFF_M && (!isIn || place.onBank)) {
      problem(
        [...place.path, 'position'],
        isIn
          ? `${place.name} lies ${metres(bank.distanceM)} from the shore; a place of the bank lies within ${MOST_OFF_M} m of it. Correct the position.`
          : `${place.name} lies ${metres(bank.distanceM)} outside of the water; expected inside, or at most ${MOST_OFF_M} m outside. Correct the position.`,
      );
      return [];
    }
    const fetches = fetchesM(outline, at);
    const faces = place.faces === undefined ? opensOf(place, fetches, bank.facesDeg) : facesDeg(place.faces);
    return [
      {
        name: place.name,
        kind: place.kind,
        at: rounded(at),
        bankM: bank.distanceM,
        facesDeg: faces,
        fetchesM: fetches.map(Math.round),
        ...(place.kind === 'pocket' ? coveAt(outline, at, faces) : {}),
      },
    ];
  });
}

/** More than this share of the lake is no pocket of it. */
const MOST_SHARE = 0.3;

function coveAt(outline: Outline, at: Spot, faces: number): Pick<ShapedPlace, 'cove'> {
  const cove = coveOf(outline, at, faces);
  if (cove === null || cove.areaM2 > MOST_SHARE * outline.areaM2) return {};
  return { cove: { mouthWidthM: Math.round(cove.mouthWidthM), areaM2: Math.round(cove.areaM2) } };
}

/** A pocket is open to its water; a point looks away from its bank. */
const opensOf = ({ kind }: WrittenPlace, fetches: readonly number[], bankFacesDeg: number): number =>
  kind === 'pocket' ? (opensDeg(fetches) ?? bankFacesDeg) : bankFacesDeg;

const rounded = ([east, north]: Spot): Spot => [Math.round(east * 10) / 10, Math.round(north * 10) / 10];

/** Spots along the shore at which open water is measured. */
const SHORE_SPOTS = 30;

/** Longest straight open water in each direction: from the places and from spots along the shore. */
function openFetchesOf(outline: Outline, places: readonly ShapedPlace[]): number[] {
  const shore = outline.rings.flat();
  const step = Math.max(1, Math.floor(shore.length / SHORE_SPOTS));
  const rows = [
    ...shore.filter((_, i) => i % step === 0).map((spot) => fetchesM(outline, offShore(outline, spot))),
    ...places.map(({ fetchesM: own }) => own),
  ];
  return Array.from({ length: DIRECTIONS }, (_, i) =>
    Math.round(Math.max(0, ...rows.map((row) => row[i] ?? 0))),
  );
}

/** Just off a point of the shore: on it, half of the lines would lie on land. */
function offShore(outline: Outline, spot: Spot): Spot {
  const [east, north] = towards(nearestBank(outline, spot).facesDeg);
  return afloat(outline, [spot[0] + 2 * east, spot[1] + 2 * north]);
}
