import type { LureBook, LureClass, LurePlace } from '../../config/rulesLures.ts';
import { bottomContact, castAngleDeg } from '../../science/contact.ts';
import { clamp } from './curves.ts';

/** A cast laid over a bank. */
export interface Cast {
  readonly lengthM: number;
  readonly runningDepthM: number;
  readonly boatDepthM: number;
  readonly castDepthM: number;
  readonly angleDeg: number;
  readonly contactApplies: boolean;
  readonly contactShare: number;
  readonly contactFromM: number | null;
  readonly contactToM: number | null;
  /** Why lure and bank do not go together; absent when they do. */
  readonly problem?: string;
}

interface Laid {
  readonly boatDepthM: number;
  readonly castDepthM: number;
  readonly angleDeg: number;
}

const SHALLOWEST_LANDING_M = 0.2;

/** Cast that runs from `boatM` to `castM` of water; straight at the bank, from less deep, where it is too flat for that. */
function lay(bankDeg: number, lengthM: number, boatM: number, castM: number): Laid {
  const angle = castAngleDeg(bankDeg, lengthM, boatM - castM);
  if (angle !== null) return { boatDepthM: boatM, castDepthM: castM, angleDeg: angle };
  const dropM = Math.tan((bankDeg * Math.PI) / 180) * lengthM;
  const castDepthM = Math.max(SHALLOWEST_LANDING_M, (boatM + castM) / 2 - dropM / 2);
  return { boatDepthM: castDepthM + dropM, castDepthM, angleDeg: 90 };
}

const NO_CONTACT = { contactShare: 0, contactFromM: null, contactToM: null } as const;

/**
 * The cast for a lure at a place.
 *
 * @param band      depth band of the fish, m
 * @param factor    depth on this cast and line over the depth the lure is rated for
 * @param lengthM   length of the reader's cast, m
 */
export function castFor(
  lure: LureClass,
  traits: LurePlace,
  bankDeg: number,
  band: readonly [number, number],
  factor: number,
  lengthM: number,
  book: LureBook,
): Cast {
  const { settings } = book;
  const middleM = (band[0] + band[1]) / 2;
  const runningDepthM = clamp(middleM, lure.depthM[0] * factor, lure.depthM[1] * factor);
  switch (lure.family) {
    case 'diving':
      return divingCast(runningDepthM, bankDeg, lengthM, book);
    case 'bottom': {
      const length = traits.cover === 'heavy' ? Math.min(lengthM, settings.pitchM) : lengthM;
      const boatM = band[1] + settings.boatMarginM;
      const laid = lay(bankDeg, length, boatM, Math.max(SHALLOWEST_LANDING_M, Math.min(band[0], boatM)));
      // Line under about 45 degrees lifts the lure: the last stretch, as long as the water is deep, is off bottom.
      const toM = Math.max(0, length - laid.boatDepthM);
      const contact = toM > 0 ? { contactShare: toM / length, contactFromM: 0, contactToM: toM } : NO_CONTACT;
      return { ...laid, lengthM: length, runningDepthM: middleM, contactApplies: true, ...contact };
    }
    case 'vertical':
      return {
        lengthM: 0,
        runningDepthM,
        boatDepthM: Math.max(band[1], runningDepthM),
        castDepthM: Math.max(band[1], runningDepthM),
        angleDeg: 90,
        contactApplies: false,
        ...NO_CONTACT,
      };
    case 'sinking':
    case 'suspending':
    case 'surface': {
      const boatM = Math.max(band[1], runningDepthM) + settings.boatMarginM;
      const castM = Math.max(0.3, Math.min(band[0], boatM));
      return {
        ...lay(bankDeg, lengthM, boatM, castM),
        lengthM,
        runningDepthM: lure.family === 'surface' ? 0 : runningDepthM,
        contactApplies: false,
        ...NO_CONTACT,
      };
    }
  }
}

function divingCast(runningDepthM: number, bankDeg: number, lengthM: number, book: LureBook): Cast {
  const { settings } = book;
  const laid = lay(
    bankDeg,
    lengthM,
    runningDepthM + settings.boatMarginM,
    runningDepthM * settings.castDepthShare,
  );
  const contact = bottomContact({
    runningDepthM,
    diveSlope: Math.max(settings.diveSlope, runningDepthM / settings.longestDiveM),
    riseLengthM: Math.min(settings.riseLengthPerDepth * runningDepthM, settings.longestRiseM),
    castLengthM: lengthM,
    boatDepthM: laid.boatDepthM,
    castDepthM: laid.castDepthM,
  });
  const problem =
    laid.angleDeg < settings.smallestAngleDeg
      ? 'the bank is too steep to follow'
      : contact.share === 0
        ? 'the bottom drops away faster than the lure dives on this cast'
        : undefined;
  return {
    ...laid,
    lengthM,
    runningDepthM,
    contactApplies: true,
    contactShare: contact.share,
    contactFromM: contact.fromM,
    contactToM: contact.toM,
    ...(problem === undefined ? {} : { problem }),
  };
}
