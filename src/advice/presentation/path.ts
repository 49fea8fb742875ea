import type { LureBook } from '../../config/rulesLures.ts';
import { diveSlopeOf } from './cast.ts';
import type { Laid, Presentation } from './types.ts';

/** A point of the retrieve: distance from where it lands, depth of lure and bottom there, m. */
export interface PathPoint {
  readonly alongM: number;
  readonly lureM: number;
  readonly bottomM: number;
}

const POINTS = 40;

/**
 * The way of the lure from where it lands to the boat, from the same numbers as its contact: what a picture draws and
 * a check walks along. Depths grow downward.
 *
 * @returns points from the landing to the boat; one point under the boat for a lure let straight down
 */
export function lurePath(presentation: Presentation, book: LureBook): PathPoint[] {
  if (presentation.family === 'vertical') {
    const { runningDepthM, boatDepthM } = presentation;
    return [{ alongM: 0, lureM: runningDepthM, bottomM: boatDepthM }];
  }
  const { castLengthM } = presentation;
  return Array.from({ length: POINTS + 1 }, (_, index) => {
    const alongM = (castLengthM * index) / POINTS;
    const bottomM = bottomAt(presentation, alongM);
    return { alongM, bottomM, lureM: Math.min(bottomM, depthAt(presentation, alongM, bottomM, book)) };
  });
}

function bottomAt({ boatDepthM, castDepthM, castLengthM }: Laid, alongM: number): number {
  return castDepthM + ((boatDepthM - castDepthM) * alongM) / castLengthM;
}

function depthAt(
  cast: Exclude<Presentation, { family: 'vertical' }>,
  alongM: number,
  bottomM: number,
  book: LureBook,
): number {
  const { settings } = book;
  switch (cast.family) {
    case 'surface':
      return 0;
    case 'bottom':
      return cast.contact !== null && alongM <= cast.contact.toM
        ? bottomM
        : lifted(bottomAt(cast, cast.contact?.toM ?? 0), cast.castLengthM - alongM, cast);
    case 'sinking': {
      const startM = cast.down?.startDepthM ?? cast.runningDepthM;
      const untilM = cast.down?.untilM ?? 0;
      if (untilM === 0) return startM;
      return startM + (cast.runningDepthM - startM) * Math.min(1, alongM / untilM);
    }
    case 'diving':
    case 'suspending': {
      const riseM = Math.min(settings.riseLengthPerDepth * cast.runningDepthM, settings.longestRiseM);
      const diving = diveSlopeOf(cast.runningDepthM, book) * alongM;
      const rising = (cast.runningDepthM * (cast.castLengthM - alongM)) / riseM;
      return Math.min(cast.runningDepthM, diving, rising);
    }
  }
}

/** Near the boat a taut line lifts a bottom lure straight to it. */
function lifted(fromM: number, leftM: number, cast: Laid): number {
  const stretchM = Math.min(cast.boatDepthM, cast.castLengthM);
  return stretchM <= 0 ? 0 : (fromM * leftM) / stretchM;
}
