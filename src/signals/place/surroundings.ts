/** What stands around a place and keeps sun from it. */
import type { LakeConfig, PocketConfig } from '../../config/index.ts';
import { betweenDeg } from '../../units/index.ts';

/** Trees and roofs behind the bank by what covers the land, m (common practice, no source). */
const HEIGHT_M: Readonly<Record<PocketConfig['landCover'], number>> = {
  wooded: 15,
  mixed: 8,
  pasture: 3,
  urban: 6,
};
/** Within this of the side it is open to, nothing stands in the way, degrees. */
const OPEN_DEG = 60;
const EIGHTHS = [0, 45, 90, 135, 180, 225, 270, 315] as const;
/** Side of a pocket whose area nobody gave, m. */
const USUAL_SIDE_M = 80;

/** Horizon of a pocket, eight heights from north with the sun, and whether it is a guess; null where nothing is known. */
export function horizonOf(
  pocket: PocketConfig,
  lake: LakeConfig,
): { readonly horizonDeg: readonly number[]; readonly guessed: boolean } | null {
  const given = pocket.horizonDeg ?? lake.horizonDeg;
  if (given !== undefined) return { horizonDeg: given, guessed: false };
  const faces = facesOf(pocket, lake);
  if (faces === undefined) return null;
  return { guessed: true, horizonDeg: guessedHorizon(faces, pocket.landCover, pocket.areaM2) };
}

/**
 * What likely stands around a pocket of which only the side it faces is known: trees and roofs by what covers the land
 * on all other sides.
 *
 * @param areaM2 of the pocket; left out: a middling one
 * @returns eight heights from north with the sun, degrees
 */
export function guessedHorizon(
  facesDeg: number,
  landCover: PocketConfig['landCover'],
  areaM2 = USUAL_SIDE_M ** 2,
): number[] {
  const awayM = Math.sqrt(areaM2) / 2;
  const height = (Math.atan(HEIGHT_M[landCover] / awayM) * 180) / Math.PI;
  return EIGHTHS.map((deg) => (betweenDeg(deg, facesDeg) <= OPEN_DEG ? 0 : height));
}

/** Side to which a place is open: as configured, else as its shore says. */
export function facesOf(
  place: { readonly name: string; readonly facesDeg?: number },
  lake: LakeConfig,
): number | undefined {
  return place.facesDeg ?? lake.shape?.places.find(({ name }) => name === place.name)?.facesDeg;
}
