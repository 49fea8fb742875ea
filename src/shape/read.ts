/** GeoJSON (RFC 7946) to an outline, with a sentence for whatever is wrong with it. */
import area from '@turf/area';
import { crossingOf } from './crossing.ts';
import { isInside, ringAreaM2, spotOf } from './plane.ts';
import { simplified } from './simplify.ts';
import { ShapeError, type Outline, type Ring, type Spot } from './types.ts';

/** Bytes up to which an outline is read. */
const MOST_BYTES = 20_000_000;
/** Points that are kept: 2,000 draw a shore of 100 km with one every 50 m. */
const KEPT_POINTS = 2000;
/** A lake whose outline is farther than this from its position is another one, degrees. */
const NEAR_DEG = 2;

/** Longitude and latitude, degrees, and what else stands behind them. */
type Position = number[];
/** Shore and islands, as they are written: large, hence never copied. */
type Polygon = Position[][];

const isObject = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** Names by which GIS programs write longitude and latitude of WGS 84. */
const WGS84 = /CRS84|EPSG:(?::|\/\/)?(?:\d*:)?4326$|EPSG::?4326|EPSG:4979/i;

/**
 * Read the outline of a lake.
 *
 * @param text GeoJSON: a Polygon or MultiPolygon, alone, as a feature or in a collection; islands are its holes
 * @param near where the lake lies, degrees: tells an outline whose latitude and longitude stand the wrong way round
 * @returns the outline, simplified to at most 2,000 points
 * @throws ShapeError with a sentence that says what was found and how to mend it
 * @see RFC 7946, sections 3.1.6 (rings), 4 (WGS 84, longitude first)
 */
export function readOutline(
  text: string,
  near: { readonly latDeg: number; readonly lonDeg: number },
): Outline {
  if (text.length > MOST_BYTES)
    throw new ShapeError(
      `it holds ${Math.round(text.length / 1e6)} MB; expected at most 20 MB. Export this lake alone, or simplify it in your GIS.`,
    );
  const written = parsed(text);
  refuseOtherCrs(written);
  const polygons: Polygon[] = [];
  collect(written, polygons, new Set());
  if (polygons.length === 0)
    throw new ShapeError(
      'it holds no area: expected a Polygon or MultiPolygon. If your export is a line, close it to an area in your GIS first.',
    );
  const bounds = boundsOf(polygons);
  checkRange(bounds, polygons);
  checkOrder(bounds, near);
  const shores = polygons.map((polygon) => ringsOf(polygon, near));
  const rings = shores.flat();
  const crossing = crossingOf(rings);
  if (crossing !== null) throw new ShapeError(crossingWords(near, crossing));
  const areaM2 = polygons.reduce((sum, polygon) => sum + areaOf(polygon), 0);
  if (!(areaM2 > 0)) throw new ShapeError('its area is 0: expected a shore that goes around some water.');
  const kept = simplified(rings, KEPT_POINTS);
  return {
    latDeg: near.latDeg,
    lonDeg: near.lonDeg,
    rings: kept,
    areaM2,
    pointsRead: rings.reduce((sum, ring) => sum + ring.length, 0),
    pointsKept: kept.reduce((sum, ring) => sum + ring.length, 0),
  };
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text.replace(/^\uFEFF/, ''));
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    throw new ShapeError(`it is not GeoJSON: ${why.slice(0, 120)}. Export it again as GeoJSON (RFC 7946).`, {
      cause: error,
    });
  }
}

/** GeoJSON is longitude and latitude of WGS 84; older files may name another system. */
function refuseOtherCrs(written: unknown): void {
  if (!isObject(written) || !isObject(written['crs'])) return;
  const { properties } = written['crs'];
  const name = isObject(properties) ? properties['name'] : undefined;
  if (typeof name === 'string' && !WGS84.test(name))
    throw new ShapeError(
      `its coordinate system is "${name.slice(0, 60)}"; expected longitude and latitude of WGS 84 (EPSG:4326). Export it in that system.`,
    );
}

const DEPTH = 6;

/** Every polygon of a geometry, feature or collection, whatever else stands beside it. */
function collect(written: unknown, into: Polygon[], kinds: Set<string>, depth = 0): void {
  if (!isObject(written) || depth > DEPTH) return;
  const { type, coordinates } = written;
  if (typeof type === 'string') kinds.add(type);
  switch (type) {
    case 'FeatureCollection':
    case 'GeometryCollection': {
      const parts = written['features'] ?? written['geometries'];
      if (Array.isArray(parts)) for (const part of parts) collect(part, into, kinds, depth + 1);
      break;
    }
    case 'Feature':
      collect(written['geometry'], into, kinds, depth + 1);
      break;
    case 'Polygon':
      addPolygon(coordinates, into);
      break;
    case 'MultiPolygon':
      if (Array.isArray(coordinates)) for (const polygon of coordinates) addPolygon(polygon, into);
      break;
    default:
  }
}

function addPolygon(coordinates: unknown, into: Polygon[]): void {
  if (!Array.isArray(coordinates) || coordinates.length === 0) return;
  into.push(coordinates.map((ring, i) => positionsOf(ring, i)));
}

function positionsOf(ring: unknown, index: number): Position[] {
  const name = index === 0 ? 'the shore' : `island ${index}`;
  if (!Array.isArray(ring) || ring.length < 4)
    throw new ShapeError(
      `${name} has ${Array.isArray(ring) ? ring.length : 'no'} positions; expected at least four, the last like the first.`,
    );
  if (isRing(ring)) return ring;
  const wrong = ring.findIndex((position) => !isPosition(position));
  throw new ShapeError(
    `position ${wrong + 1} of ${name} is not two numbers; expected [longitude, latitude].`,
  );
}

const isPosition = (position: unknown): position is Position =>
  Array.isArray(position) && Number.isFinite(position[0]) && Number.isFinite(position[1]);

const isRing = (ring: readonly unknown[]): ring is Position[] => ring.every(isPosition);

/** Of all positions: west, south, east, north, degrees. */
type Bounds = readonly [west: number, south: number, east: number, north: number];

function boundsOf(polygons: readonly Polygon[]): Bounds {
  let [west, south, east, north] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const ring of polygons.flat()) {
    for (const position of ring) {
      const lon = position[0] ?? NaN;
      const lat = position[1] ?? NaN;
      if (lon < west) west = lon;
      if (lon > east) east = lon;
      if (lat < south) south = lat;
      if (lat > north) north = lat;
    }
  }
  return [west, south, east, north];
}

function checkRange([west, south, east, north]: Bounds, polygons: readonly Polygon[]): void {
  if (Math.max(-west, east, -south, north) > 180) {
    const far = polygons
      .flat(2)
      .find((position) => Math.abs(position[0] ?? 0) > 180 || Math.abs(position[1] ?? 0) > 180);
    throw new ShapeError(
      `it has a position [${far?.[0] ?? ''}, ${far?.[1] ?? ''}], which is no longitude and latitude; expected degrees of WGS 84. Metres of another system must be exported anew.`,
    );
  }
  if (Math.max(-south, north) > 90) throw swapped();
}

const swapped = (): ShapeError =>
  new ShapeError(
    'its latitude and longitude stand the wrong way round; expected [longitude, latitude], the longitude first.',
  );

/** A lake has to lie where its configuration says, and does so the other way round where its numbers are swapped. */
function checkOrder(
  [west, south, east, north]: Bounds,
  near: { readonly latDeg: number; readonly lonDeg: number },
): void {
  const [lon, lat] = [(west + east) / 2, (south + north) / 2];
  const off = (a: number, b: number): number => Math.hypot(a - near.latDeg, b - near.lonDeg);
  if (off(lat, lon) <= NEAR_DEG) return;
  if (off(lon, lat) <= NEAR_DEG) throw swapped();
  throw new ShapeError(
    `it lies around latitude ${lat.toFixed(2)}, longitude ${lon.toFixed(2)}, but the lake's position is ${near.latDeg}, ${near.lonDeg}. Correct one of them.`,
  );
}

/** Shore and islands of one polygon, open, without doubled points, water left of every edge. */
function ringsOf(polygon: Polygon, origin: { readonly latDeg: number; readonly lonDeg: number }): Ring[] {
  return polygon.flatMap((positions, index) => {
    const spots: Spot[] = [];
    let last: Spot | undefined;
    for (const position of positions) {
      const spot = spotOf(origin, position[1] ?? NaN, position[0] ?? NaN);
      if (last !== undefined && last[0] === spot[0] && last[1] === spot[1]) continue;
      spots.push(spot);
      last = spot;
    }
    const [first] = spots;
    if (spots.length > 1 && first !== undefined && first[0] === last?.[0] && first[1] === last[1])
      spots.pop();
    if (spots.length < 3) return [];
    const isShore = index === 0;
    return [ringAreaM2(spots) > 0 === isShore ? spots : spots.reverse()];
  });
}

const areaOf = (coordinates: Polygon): number => area({ type: 'Polygon', coordinates });

function crossingWords(
  origin: { readonly latDeg: number; readonly lonDeg: number },
  [east, north]: Spot,
): string {
  const [perLon] = spotOf(origin, origin.latDeg, origin.lonDeg + 1);
  const [, perLat] = spotOf(origin, origin.latDeg + 1, origin.lonDeg);
  const lat = (origin.latDeg + north / perLat).toFixed(5);
  const lon = (origin.lonDeg + east / perLon).toFixed(5);
  return `its shore crosses itself near latitude ${lat}, longitude ${lon}. Mend it in your GIS (fix geometries), and export it again.`;
}

/**
 * An outline from rings that are already metres, for tests of the figure alone.
 *
 * @internal
 * @throws ShapeError when they cross
 */
export function outlineOf(rings: readonly Ring[], latDeg = 0, lonDeg = 0): Outline {
  const placed = rings.map((ring) => {
    const others = rings.filter((other) => other !== ring);
    const [first] = ring;
    const isIsland = first !== undefined && isInside(others, first);
    return ringAreaM2(ring) > 0 === isIsland ? [...ring].reverse() : ring;
  });
  if (crossingOf(placed) !== null) throw new ShapeError('its shore crosses itself.');
  const count = placed.reduce((sum, ring) => sum + ring.length, 0);
  const areaM2 = placed.reduce((sum, ring) => sum + ringAreaM2(ring), 0);
  return { latDeg, lonDeg, rings: placed, areaM2, pointsRead: count, pointsKept: count };
}
