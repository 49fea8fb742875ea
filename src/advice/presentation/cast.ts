import type { LureBook, LureClass, LurePlace } from '../../config/index.ts';
import { bottomContact, castAngleDeg } from '../../science/index.ts';
import { clamp } from './curves.ts';
import { isPitched } from './tackle.ts';
import type { BottomStretch, Laid, Problem } from './types.ts';

/** A cast laid over a bank. */
export interface Cast extends Laid {
  readonly runningDepthM: number;
  /** Stretch on the bottom; null where there is none. */
  readonly contact: BottomStretch | null;
  /** Why lure and bank do not go together; absent when they do. */
  readonly problem?: Problem;
}

/** The fish, the bank, and what the reader's cast reaches. */
export interface Water {
  readonly bankDeg: number;
  /** Depth of the fish, m. */
  readonly band: readonly [number, number];
  /** Depth on this cast and line over the depth the lure is rated for. */
  readonly factor: number;
  readonly lengthM: number;
}

const SHALLOWEST_LANDING_M = 0.2;
const DEPTH_STEP_M = 0.1;
/** A diving lure this deep is brought off ledges and long points, not down a bank, m (8 ft; common practice, no source). */
const LEDGE_FROM_M = 2.45;

const slopeOf = (bankDeg: number): number => Math.tan((bankDeg * Math.PI) / 180);

/** Cast that runs from `boatM` to `castM` of water; straight at the bank, from less deep, where it is too flat for that. */
function lay(bankDeg: number, lengthM: number, boatM: number, castM: number): Laid {
  const angle = castAngleDeg(bankDeg, lengthM, boatM - castM);
  if (angle !== null)
    return { castLengthM: lengthM, bankDeg, boatDepthM: boatM, castDepthM: castM, castAngleDeg: angle };
  const dropM = slopeOf(bankDeg) * lengthM;
  const castDepthM = Math.max(SHALLOWEST_LANDING_M, (boatM + castM) / 2 - dropM / 2);
  return { castLengthM: lengthM, bankDeg, boatDepthM: castDepthM + dropM, castDepthM, castAngleDeg: 90 };
}

/** Kinds of cover over which a diving lure is meant to strike the bottom; over the others it runs clear. */
const STRIKES: readonly LurePlace['kind'][] = ['open', 'rock', 'wood', 'dock', 'current'];

/** The cast for a lure at a place. */
export function castFor(lure: LureClass, traits: LurePlace, water: Water, book: LureBook): Cast {
  const { settings } = book;
  const { bankDeg, band, factor, lengthM } = water;
  const middleM = (band[0] + band[1]) / 2;
  const runningDepthM = clamp(middleM, lure.depthM[0] * factor, lure.depthM[1] * factor);
  const clearM = clearanceOf(lure, book);
  switch (lure.family) {
    case 'diving':
      return STRIKES.includes(traits.kind)
        ? touchingCast(lure, water, book)
        : clearCast(lure, water, runningDepthM, book);
    case 'suspending':
      return clearCast(lure, water, runningDepthM, book);
    case 'bottom': {
      const length = isPitched(lure, traits) ? Math.min(lengthM, settings.pitchM) : lengthM;
      const boatM = band[1] + settings.boatMarginM;
      const laid = lay(bankDeg, length, boatM, Math.max(SHALLOWEST_LANDING_M, Math.min(band[0], boatM)));
      // Line under about 45 degrees lifts the lure: the last stretch, as long as the water is deep, is off bottom.
      const toM = Math.max(0, length - laid.boatDepthM);
      return {
        ...laid,
        runningDepthM: middleM,
        contact: toM > 0 ? { share: toM / length, fromM: 0, toM } : null,
      };
    }
    case 'vertical': {
      // Worked just above the bottom, in the middle of the fish: what hangs higher is let down to what is seen there.
      const boatDepthM = runningDepthM + clearM;
      return {
        boatDepthM,
        castDepthM: boatDepthM,
        castLengthM: 0,
        castAngleDeg: 90,
        bankDeg,
        runningDepthM,
        contact: null,
      };
    }
    case 'sinking': {
      const boatM = Math.max(band[1], runningDepthM + clearM) + settings.boatMarginM;
      const castM = Math.max(clearM + SHALLOWEST_LANDING_M, Math.min(band[0], boatM));
      const laid = lay(bankDeg, lengthM, boatM, castM);
      // On a flat bank the boat may end up over less water than was asked for: the lure stays above the bottom there.
      return { ...laid, runningDepthM: Math.min(runningDepthM, laid.boatDepthM - clearM), contact: null };
    }
    case 'surface': {
      const boatM = band[1] + settings.boatMarginM;
      return {
        ...lay(bankDeg, lengthM, boatM, Math.max(0.3, Math.min(band[0], boatM))),
        runningDepthM: 0,
        contact: null,
      };
    }
  }
}

/** What is kept between a lure and the bottom, m. */
export function clearanceOf(lure: LureClass, book: LureBook): number {
  const { open, guarded } = book.settings.clearanceM;
  return lure.guard === 'guarded' || lure.guard === 'weedless' ? guarded : open;
}

/** Free dive of a lure, depth per length of retrieve. */
export function diveSlopeOf(runningDepthM: number, book: LureBook): number {
  return Math.max(book.settings.diveSlope, runningDepthM / book.settings.longestDiveM);
}

/** Length in front of the boat over which the line lifts a diving lure, m. */
export function riseLengthOf(runningDepthM: number, { settings }: LureBook): number {
  return Math.min(settings.riseLengthPerDepth * runningDepthM, settings.longestRiseM);
}

function contactOf(laid: Laid, runningDepthM: number, book: LureBook): BottomStretch | null {
  const { share, fromM, toM } = bottomContact({
    runningDepthM,
    diveSlope: diveSlopeOf(runningDepthM, book),
    riseLengthM: riseLengthOf(runningDepthM, book),
    castLengthM: laid.castLengthM,
    boatDepthM: laid.boatDepthM,
    castDepthM: laid.castDepthM,
  });
  return fromM === null || toM === null ? null : { share, fromM, toM };
}

/** A diving lure over cover it must not dig into: it lands where it stays clear of the bottom all the way. */
function clearCast(lure: LureClass, water: Water, runningDepthM: number, book: LureBook): Cast {
  const { bankDeg, band, lengthM } = water;
  const { settings } = book;
  const clearM = clearanceOf(lure, book);
  const boatM = Math.max(band[1], runningDepthM + clearM) + settings.boatMarginM;
  const castM = Math.min(boatM, Math.max(band[0], runningDepthM + clearM));
  const laid = lay(bankDeg, lengthM, boatM, castM);
  const least = Math.min(laid.castDepthM, laid.boatDepthM) - clearM;
  return { ...laid, runningDepthM: Math.min(runningDepthM, Math.max(0.1, least)), contact: null };
}

interface Try {
  readonly cast: Cast;
  readonly share: number;
  readonly worth: number;
}

/**
 * A diving lure meant for the bottom: depth of the lure, boat and landing chosen together, so that it swims past the
 * fish for as much of the retrieve as can be, strikes bottom on the way, and comes free only near the boat.
 */
function touchingCast(lure: LureClass, water: Water, book: LureBook): Cast {
  const { settings } = book;
  const { band, factor, lengthM, bankDeg } = water;
  const shallowest = lure.depthM[0] * factor;
  const deepest = lure.depthM[1] * factor;
  const middleM = clamp((band[0] + band[1]) / 2, shallowest, deepest);
  const from = Math.max(shallowest, Math.min(band[0], deepest));
  const to = Math.min(deepest, Math.max(band[1], shallowest));
  const halfBandM = Math.max(0.3, (band[1] - band[0]) / 2);
  let best: Try | null = null;
  for (let depthM = from; depthM <= to + 1e-9; depthM += DEPTH_STEP_M) {
    const near = 1 - 0.3 * Math.min(1, Math.abs(depthM - middleM) / halfBandM);
    // What it passes and touches only takes away from it: no cast at this depth can be better than the best so far.
    if (best !== null && best.share >= settings.leastContact && near <= best.worth + 1e-9) continue;
    for (const margin of settings.boatMarginsM) {
      for (const castM of landingsM(depthM, band[0], book)) {
        const boatM = depthM + margin;
        // On a bank too flat for that it lands deeper: the boat stays over more water than the lure runs in.
        const laid = lay(bankDeg, lengthM, boatM, Math.max(castM, boatM - slopeOf(bankDeg) * lengthM));
        if (laid.castAngleDeg < settings.smallestAngleDeg) continue;
        const contact = contactOf(laid, depthM, book);
        const share = contact?.share ?? 0;
        const touches = Math.min(1, share / settings.contactAim);
        const among = pastFishShare(laid, depthM, band[0], book);
        const drawn = pastFishShare(laid, depthM, Math.max(0, band[0] - lure.drawsFromM), book);
        const worth = ((2 * among + drawn + touches) / 4) * near;
        const found = { cast: { ...laid, runningDepthM: depthM, contact }, share, worth };
        if (best === null || better(found, best, settings.leastContact)) best = found;
      }
    }
  }
  if (best === null) {
    const laid = lay(bankDeg, lengthM, middleM + (settings.boatMarginsM[0] ?? 0), middleM / 3);
    return { ...laid, runningDepthM: middleM, contact: null, problem: { code: 'tooSteep' } };
  }
  if (best.share >= settings.leastContact) return best.cast;
  return { ...best.cast, problem: { code: 'littleContact', share: best.share } };
}

/** A cast that touches enough goes before one that does not, whatever else speaks for it. */
function better(found: Try, best: Try, least: number): boolean {
  const enough = found.share >= least;
  if (enough !== best.share >= least) return enough;
  return found.worth > best.worth + 1e-9;
}

/** Depths to land in for a lure of this depth: the usual shares of it, and deeper ones where the fish begin deeper. */
function landingsM(depthM: number, topM: number, { settings }: LureBook): number[] {
  return [
    ...settings.landingShares.map((share) => Math.max(SHALLOWEST_LANDING_M, depthM * share)),
    ...settings.ledgeLandingShares
      .map((share) => depthM * share)
      .filter((castM) => depthM >= LEDGE_FROM_M && castM <= topM),
  ];
}

/** Share of the retrieve on which a diving lure is at least so deep. */
function pastFishShare(laid: Laid, depthM: number, topM: number, book: LureBook): number {
  if (topM > depthM) return 0;
  const { castLengthM, castDepthM, boatDepthM } = laid;
  const slope = (boatDepthM - castDepthM) / castLengthM;
  const bottomReachesM = castDepthM >= topM ? 0 : slope > 0 ? (topM - castDepthM) / slope : Infinity;
  const fromM = Math.max(topM / diveSlopeOf(depthM, book), bottomReachesM);
  const toM = castLengthM - (topM / depthM) * riseLengthOf(depthM, book);
  return clamp((toM - fromM) / castLengthM, 0, 1);
}
