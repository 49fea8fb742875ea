/** Watersheds that pockets name as outlines: read, checked, and turned into the land that drains into them. */
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { isInside, nearestBank, readOutline, ShapeError, type Outline } from '../shape/index.ts';
import { keptAreaM2, keyOf } from './keptShape.ts';
import type { WrittenConfig } from './schema.ts';
import type { Shelves } from './shapes.ts';

type WrittenLake = WrittenConfig['lakes'][number];
type WrittenPocket = WrittenLake['pockets'][number];
type Problem = (path: (string | number)[], message: string) => void;

/** Share by which it may differ from the configured watershed: divides are drawn in many ways (common practice, no source). */
const AREA_OFF_SHARE = 0.25;
/** The mouth of a stream stands at the edge of its watershed: farthest outside of it, m. */
const MOST_OFF_M = 200;
/** As the field for a watershed takes it, m2. */
const LEAST_M2 = 1e3;
const MOST_M2 = 5e10;

const km2 = (m2: number): string => `${Number((m2 / 1e6).toPrecision(3))} km2`;

/** @param folder of the configuration: outlines lie relative to it */
export function watershedsOfLake(
  lake: WrittenLake,
  folder: string,
  shelves: Shelves,
  problem: Problem,
): ReadonlyMap<string, number> {
  const found = new Map<string, number>();
  lake.pockets.forEach((pocket, i) => {
    const areaM2 = watershedOf(pocket, lake, folder, shelves, (field, message) => {
      problem(['pockets', i, field], message);
    });
    if (areaM2 !== null) found.set(pocket.id, areaM2 / 1e6);
  });
  return found;
}

function watershedOf(
  pocket: WrittenPocket,
  lake: WrittenLake,
  folder: string,
  shelves: Shelves,
  problem: (field: string, message: string) => void,
): number | null {
  if (pocket.watershedOutline === undefined) return null;
  const { position } = pocket;
  if (position === undefined) {
    problem(
      'watershedOutline',
      'a watershed is looked for around the mouth of its stream. Give the pocket a position: { lat, lon } there.',
    );
    return null;
  }
  const path = resolve(folder, pocket.watershedOutline);
  let file: Buffer;
  try {
    file = readFileSync(path);
  } catch {
    problem('watershedOutline', `${path} cannot be read. Put the file there, or correct the path.`);
    return null;
  }
  const key = keyOf(file, position, pocket.watershed ?? null);
  const kept = shelves.find(pocket.id, key);
  const keptM2 = kept === undefined ? null : keptAreaM2(kept);
  if (keptM2 !== null) return keptM2;
  try {
    const land = readOutline(file.toString('utf8'), { latDeg: position.lat, lonDeg: position.lon });
    const wrong = faultOf(land, pocket, lake);
    if (wrong === null) {
      shelves.put(pocket.id, key, JSON.stringify(land.areaM2));
      return land.areaM2;
    }
    problem('watershedOutline', wrong);
  } catch (error) {
    if (!(error instanceof ShapeError)) throw error;
    problem('watershedOutline', `${path}: ${error.message}`);
  }
  return null;
}

function faultOf(land: Outline, { watershed, name }: WrittenPocket, lake: WrittenLake): string | null {
  const { areaM2, rings } = land;
  if (areaM2 < LEAST_M2 || areaM2 > MOST_M2)
    return `it encloses ${km2(areaM2)}; expected the land that drains into ${name}, ${km2(LEAST_M2)} to ${km2(MOST_M2)}. Export the watershed of this stream alone.`;
  const off = watershed === undefined ? 0 : areaM2 / watershed - 1;
  if (watershed !== undefined && Math.abs(off) > AREA_OFF_SHARE)
    return `it encloses ${km2(areaM2)}, but watershed says ${km2(watershed)} (${Math.abs(Math.round(off * 100))} % ${off > 0 ? 'more' : 'less'}). Correct or remove watershed, or export the outline of this stream.`;
  // The position of the pocket is the origin of its land.
  const { distanceM } = nearestBank({ rings }, [0, 0]);
  if (!isInside(rings, [0, 0]) && distanceM > MOST_OFF_M)
    return `the position of ${name} lies ${Math.round(distanceM)} m outside of it; the mouth of a stream lies in its watershed or within ${MOST_OFF_M} m of it. Correct the position, or export the watershed of this stream of ${lake.name}.`;
  return null;
}
