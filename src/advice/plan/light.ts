import { CIVIL_TWILIGHT_DEG } from '../../science/index.ts';
import type { PlanHour } from './hours.ts';

/** Up to this the light is low, degrees (flats, points and grass tops under a sun of 10, a little more at the end; common practice, no source). */
export const LOW_SUN_DEG = 12;
/** A stretch whose sun stands this high in the mean, and low in no part of it, has a high sun, degrees. */
export const HIGH_SUN_DEG = 30;

/** Kinds of light that a lure and a reason are chosen for. */
export type Light = 'night' | 'low' | 'day';

/** The light under a sun of this altitude, degrees. */
export function lightOf(sunAltitudeDeg: number): Light {
  if (sunAltitudeDeg <= CIVIL_TWILIGHT_DEG) return 'night';
  return sunAltitudeDeg <= LOW_SUN_DEG ? 'low' : 'day';
}

const BOUNDS = [CIVIL_TWILIGHT_DEG, LOW_SUN_DEG] as const;
const ROUND_MS = 5 * 60_000;

interface Point {
  readonly atMs: number;
  readonly sunDeg: number;
}

const middleMs = ({ fromMs, toMs }: PlanHour): number => (fromMs + toMs) / 2;

/** The sun at the middles of the hours that follow on each other around an hour, in order. */
function sunsAround(hours: readonly PlanHour[], index: number): Point[] {
  const found: Point[] = [];
  for (const at of [index - 1, index, index + 1]) {
    const hour = hours[at];
    if (hour?.sunAltitudeDeg === undefined) continue;
    const apart =
      at < index ? hours[at + 1]?.fromMs !== hour.toMs : at > index && hours[at - 1]?.toMs !== hour.fromMs;
    if (!apart) found.push({ atMs: middleMs(hour), sunDeg: hour.sunAltitudeDeg });
  }
  return found;
}

/** Between two points of the sun's way a straight line is within a few tenths of a degree over an hour. */
function altitudeAt(points: readonly Point[], atMs: number): number | undefined {
  const [first, last] = [points[0], points.at(-1)];
  if (first === undefined || last === undefined) return undefined;
  const next = points.findIndex((point) => point.atMs >= atMs);
  const to = next < 0 ? points.length - 1 : Math.max(1, next);
  const [a, b] = [points[to - 1] ?? first, points[to] ?? last];
  if (a.atMs === b.atMs) return a.sunDeg;
  return a.sunDeg + ((b.sunDeg - a.sunDeg) * (atMs - a.atMs)) / (b.atMs - a.atMs);
}

/** Instants within an hour at which the light changes its kind, to five minutes. */
function turnsIn({ fromMs, toMs }: PlanHour, points: readonly Point[]): number[] {
  const at = [fromMs, middleMs({ fromMs, toMs }), toMs].map((atMs) => ({
    atMs,
    sunDeg: altitudeAt(points, atMs) ?? 0,
  }));
  const turns = new Set<number>();
  for (const [index, to] of at.entries()) {
    const from = at[index - 1];
    if (from === undefined) continue;
    for (const bound of BOUNDS) {
      if (from.sunDeg <= bound === to.sunDeg <= bound) continue;
      const turnMs = from.atMs + ((to.atMs - from.atMs) * (bound - from.sunDeg)) / (to.sunDeg - from.sunDeg);
      const rounded = Math.round(turnMs / ROUND_MS) * ROUND_MS;
      if (rounded > fromMs && rounded < toMs) turns.add(rounded);
    }
  }
  return [...turns].sort((a, b) => a - b);
}

/**
 * The hours, cut where the light changes its kind, so that each lies on one side of every bound: an hour of which a
 * part is light is no hour of the dark, and none of which the sun is low to its middle is one of low light.
 *
 * @param hours in order; the sun of each is that of its middle
 * @returns the same hours with the same numbers; those that are cut with their part of the rain, and their own sun
 */
export function cutByLight(hours: readonly PlanHour[]): PlanHour[] {
  return hours.flatMap((hour, index): PlanHour[] => {
    if (hour.sunAltitudeDeg === undefined) return [hour];
    const points = sunsAround(hours, index);
    const turns = turnsIn(hour, points);
    if (turns.length === 0) return [hour];
    const cuts = [hour.fromMs, ...turns, hour.toMs];
    return cuts.slice(0, -1).map((fromMs, part): PlanHour => {
      const toMs = cuts[part + 1] ?? hour.toMs;
      const share = (toMs - fromMs) / (hour.toMs - hour.fromMs);
      const sunAltitudeDeg = altitudeAt(points, (fromMs + toMs) / 2) ?? hour.sunAltitudeDeg;
      return {
        ...hour,
        fromMs,
        toMs,
        ...(sunAltitudeDeg === undefined ? {} : { sunAltitudeDeg }),
        ...(hour.rainMm === undefined ? {} : { rainMm: hour.rainMm * share }),
      };
    });
  });
}
