/** Distance by water: the shortest way inside the outline, on a visibility graph. */
import { crosses } from './crossing.ts';
import { distanceM, edgesOf, flatOf, isInside, side } from './plane.ts';
import { afloat } from './bank.ts';
import { simplified } from './simplify.ts';
import type { Outline, Ring, Spot } from './types.ts';

/** Points of the shore that ways are looked for around; a way is then good to a few percent. */
const WAY_POINTS = 120;
const TOUCH_M = 1e-6;

export interface Way {
  readonly distanceM: number;
  /** From the first spot to the last. */
  readonly through: readonly Spot[];
}

/** The part of a lake that ways are looked for in. */
export interface Waterways {
  readonly rings: readonly Ring[];
  readonly corners: readonly Spot[];
  /** Corners that see each other, with the distance, by index. */
  readonly seen: readonly (readonly (readonly [to: number, distanceM: number])[])[];
}

/** A corner of land with the shore on both sides of it. */
interface Turn {
  readonly at: Spot;
  readonly before: Spot;
  readonly next: Spot;
}

/** Whether a line to a corner goes past it: both its shores lie on one side. A shortest way takes no other line to it. */
const passes = ({ at, before, next }: Turn, from: Spot): boolean =>
  side(from, at, before) * side(from, at, next) >= 0;

const WAYS = new WeakMap<readonly Ring[], Waterways>();

/** Corners of the shore that see each other, made once for each outline. */
export function waterways({ rings: all }: Pick<Outline, 'rings'>): Waterways {
  const kept = WAYS.get(all);
  if (kept !== undefined) return kept;
  const rings = simplified(all, WAY_POINTS);
  // A shortest way turns only where land juts into the water.
  const turns = rings.flatMap((ring) =>
    ring.flatMap((at, i): Turn[] => {
      const before = ring.at(i - 1) ?? at;
      const next = ring[(i + 1) % ring.length] ?? at;
      return side(before, at, next) < 0 ? [{ at, before, next }] : [];
    }),
  );
  const corners = turns.map(({ at }) => at);
  const seen = corners.map((): (readonly [number, number])[] => []);
  turns.forEach((from, i) => {
    const a = from.at;
    for (let j = i + 1; j < turns.length; j += 1) {
      const to = turns[j];
      if (to === undefined || !passes(from, to.at) || !passes(to, a) || !sees(rings, a, to.at)) continue;
      const far = distanceM(a, to.at);
      seen[i]?.push([j, far]);
      seen[j]?.push([i, far]);
    }
  });
  const ways = { rings, corners, seen };
  WAYS.set(all, ways);
  return ways;
}

/** Whether a straight line between two spots stays in the water; along a shore counts as in it. */
export function sees(rings: readonly Ring[], a: Spot, b: Spot): boolean {
  const length = distanceM(a, b);
  if (length < TOUCH_M) return true;
  const cuts = [0, 1];
  const flat = flatOf(rings);
  const [ax, ay] = a;
  const dx = b[0] - ax;
  const dy = b[1] - ay;
  const touches = TOUCH_M * length;
  for (let i = 0; i < flat.length; i += 4) {
    const cx = flat[i] ?? NaN;
    const cy = flat[i + 1] ?? NaN;
    const ex = flat[i + 2] ?? NaN;
    const ey = flat[i + 3] ?? NaN;
    const ofC = dx * (cy - ay) - dy * (cx - ax);
    const ofE = dx * (ey - ay) - dy * (ex - ax);
    if (ofC * ofE < 0 && crosses(a, b, [cx, cy], [ex, ey])) return false;
    // Where a corner touches the line it may turn from water to land.
    if (Math.abs(ofC) <= touches) cuts.push(((cx - ax) * dx + (cy - ay) * dy) / length ** 2);
    if (Math.abs(ofE) <= touches) cuts.push(((ex - ax) * dx + (ey - ay) * dy) / length ** 2);
  }
  const between = cuts.filter((t) => t >= 0 && t <= 1).sort((p, q) => p - q);
  return between.slice(1).every((to, i) => {
    const from = between[i] ?? 0;
    if ((to - from) * length < 1e-3) return true;
    const t = (from + to) / 2;
    const middle: Spot = [a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])];
    return isInside(rings, middle) || onShore(rings, middle);
  });
}

const onShore = (rings: readonly Ring[], spot: Spot): boolean =>
  edgesOf(rings).some(([c, d]) => {
    const length = distanceM(c, d);
    if (Math.abs(side(c, d, spot)) > 1e-3 * Math.max(1, length)) return false;
    const t = ((spot[0] - c[0]) * (d[0] - c[0]) + (spot[1] - c[1]) * (d[1] - c[1])) / length ** 2;
    return t >= 0 && t <= 1;
  });

/** Where a way begins or ends, and how far from each corner that it sees; Infinity for those that it does not see. */
interface Berth {
  readonly at: Spot;
  readonly farM: readonly number[];
}

/** @param spot m; one on land begins just off the nearest bank */
function berthOf({ rings, corners }: Waterways, spot: Spot): Berth {
  const at = afloat({ rings }, spot);
  return {
    at,
    farM: corners.map((corner) => (sees(rings, at, corner) ? distanceM(at, corner) : Infinity)),
  };
}

/**
 * Shortest ways by water between each spot and those before it.
 *
 * @param spots m; one on land begins just off the nearest bank
 * @returns a row for each spot, with a way from it to each before; null where no water joins them
 */
export function waysBetween(
  outline: Pick<Outline, 'rings'>,
  spots: readonly Spot[],
): readonly (readonly (Way | null)[])[] {
  const ways = waterways(outline);
  const berths = spots.map((spot) => berthOf(ways, spot));
  return berths.map((from, i) => berths.slice(0, i).map((to) => wayOf(ways, from, to)));
}

/** Shortest way by water between two berths; null where no water joins them. */
function wayOf({ rings, corners, seen }: Waterways, from: Berth, to: Berth): Way | null {
  const [start, end] = [from.at, to.at];
  if (sees(rings, start, end)) return { distanceM: distanceM(start, end), through: [start, end] };
  const ends = to.farM;
  const far = [...from.farM];
  const before = corners.map(() => -1);
  const done = new Set<number>();
  let [best, last] = [Infinity, -1];
  for (;;) {
    let at = -1;
    far.forEach((value, i) => {
      if (!done.has(i) && value < (at < 0 ? Infinity : (far[at] ?? Infinity))) at = i;
    });
    const here = far[at] ?? Infinity;
    if (at < 0 || here >= best) break;
    done.add(at);
    const whole = here + (ends[at] ?? Infinity);
    if (whole < best) [best, last] = [whole, at];
    for (const [next, step] of seen[at] ?? []) {
      if (here + step < (far[next] ?? Infinity)) {
        far[next] = here + step;
        before[next] = at;
      }
    }
  }
  if (last < 0) return null;
  const through: Spot[] = [end];
  for (let at = last; at >= 0; at = before[at] ?? -1) through.unshift(corners[at] ?? end);
  return { distanceM: best, through: [start, ...through] };
}
