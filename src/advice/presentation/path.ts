import type { LureBook, LureClass } from '../../config/index.ts';
import { diveSlopeOf, riseLengthOf } from './cast.ts';
import { liftOf } from './pace.ts';
import type { PathPoint, Presentation } from './types.ts';

/** A straight course: its depth where the lure lands, m, and how much deeper it is per metre towards the boat. */
interface Course {
  readonly landingM: number;
  readonly slope: number;
}

const SURFACE: Course = { landingM: 0, slope: 0 };

/**
 * The way of the lure from where it lands to the boat, from the same numbers as its contact and its count: corners of
 * a line of straight pieces, which is drawn as it is.
 *
 * @returns corners from the landing to the boat; straight down for a lure worked under it
 */
export function lurePath(presentation: Presentation, lure: LureClass, book: LureBook): PathPoint[] {
  if (presentation.family === 'vertical') {
    return [
      { alongM: 0, depthM: 0 },
      { alongM: 0, depthM: presentation.runningDepthM },
    ];
  }
  const { castLengthM } = presentation;
  const corners = shallowest(coursesOf(presentation, lure, book), castLengthM);
  // What is let fall before it is worked comes from the surface, too.
  return corners[0]?.depthM === 0 ? corners : [{ alongM: 0, depthM: 0 }, ...corners];
}

/** What holds the lure up, course by course: it is never deeper than any of them. */
function coursesOf(
  cast: Exclude<Presentation, { family: 'vertical' }>,
  lure: LureClass,
  book: LureBook,
): Course[] {
  const { castLengthM: length } = cast;
  const bottom = { landingM: cast.castDepthM, slope: (cast.boatDepthM - cast.castDepthM) / length };
  switch (cast.family) {
    case 'surface':
      return [SURFACE];
    case 'bottom': {
      const leavesM = cast.contact?.toM ?? 0;
      return [bottom, risingTo(0, length, depthOn(bottom, leavesM), length - leavesM)];
    }
    case 'sinking': {
      const { runningDepthM, down } = cast;
      const following =
        down === null || down.untilM === 0
          ? []
          : [{ landingM: down.startDepthM, slope: (runningDepthM - down.startDepthM) / down.untilM }];
      const level = { landingM: runningDepthM, slope: 0 };
      const lift = liftOf(cast.pace.speedMs, lure, down?.fallMs ?? null, runningDepthM, book);
      return [bottom, level, ...following, risingTo(lift.atBoatM, length, runningDepthM, lift.lengthM)];
    }
    case 'diving':
    case 'suspending': {
      const { runningDepthM } = cast;
      return [
        bottom,
        { landingM: runningDepthM, slope: 0 },
        { landingM: 0, slope: diveSlopeOf(runningDepthM, book) },
        risingTo(0, length, runningDepthM, riseLengthOf(runningDepthM, book)),
      ];
    }
  }
}

const depthOn = ({ landingM, slope }: Course, alongM: number): number => landingM + slope * alongM;

/** Lifted by the line: from a depth, so far in front of the boat, straight up to what is left at the boat. */
function risingTo(boatM: number, castLengthM: number, fromM: number, overM: number): Course {
  if (overM <= 0) return { landingM: fromM, slope: 0 };
  const slope = (boatM - fromM) / overM;
  return { slope, landingM: boatM - slope * castLengthM };
}

/** Corners of the shallowest of straight courses from the landing to the boat; nothing rises above the surface. */
function shallowest(courses: readonly Course[], castLengthM: number): PathPoint[] {
  const depthAt = (alongM: number): number =>
    Math.max(0, Math.min(...courses.map((course) => depthOn(course, alongM))));
  const lines = [SURFACE, ...courses];
  const crossings = lines.flatMap((one, i) =>
    lines
      .slice(i + 1)
      .filter(({ slope }) => slope !== one.slope)
      .map((other) => (other.landingM - one.landingM) / (one.slope - other.slope))
      .filter((alongM) => alongM > SAME_M && alongM < castLengthM - SAME_M),
  );
  const points = [0, ...crossings.sort((a, b) => a - b), castLengthM]
    .filter((alongM, i, all) => i === 0 || alongM - (all[i - 1] ?? 0) > SAME_M)
    .map((alongM) => ({ alongM, depthM: depthAt(alongM) }));
  return points.filter((point, i) => !straightOn(points[i - 1], point, points[i + 1]));
}

/** Lengths nearer than this are one, m. */
const SAME_M = 1e-6;

/** No corner: it lies where the line between its neighbours has it. */
function straightOn(before: PathPoint | undefined, at: PathPoint, after: PathPoint | undefined): boolean {
  if (before === undefined || after === undefined) return false;
  const share = (at.alongM - before.alongM) / (after.alongM - before.alongM);
  return Math.abs(before.depthM + share * (after.depthM - before.depthM) - at.depthM) < SAME_M;
}
