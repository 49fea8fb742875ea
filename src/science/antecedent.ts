import { requireRange } from './range.ts';

export type MoistureClass = 'dry' | 'average' | 'wet';

/** Curve numbers for dry (I) and wet (III) watersheds by that of average moisture (II). */
const TABLE: readonly (readonly [average: number, dry: number, wet: number])[] = [
  [0, 0, 0],
  [30, 15, 50],
  [40, 22, 60],
  [50, 31, 70],
  [60, 40, 78],
  [70, 51, 85],
  [80, 63, 91],
  [90, 78, 96],
  [100, 100, 100],
];

/**
 * Curve number adjusted to how wet the watershed was before the storm, linear between the rows of the table.
 *
 * @param curveNumber curve number for average moisture, 0 to 100
 * @param moisture    antecedent moisture class
 * @returns curve number, 0 to 100
 * @throws RangeError outside the range
 * @see SCS (1985), National Engineering Handbook 4, as printed in Beven, Rainfall-Runoff Modelling, table B6.3.2
 * @example adjustCurveNumber(70, 'wet') // 85
 */
export function adjustCurveNumber(curveNumber: number, moisture: MoistureClass): number {
  requireRange('curveNumber', curveNumber, 0, 100);
  if (moisture === 'average') return curveNumber;
  const column = moisture === 'dry' ? 1 : 2;
  for (let i = 1; i < TABLE.length; i++) {
    const below = TABLE[i - 1];
    const above = TABLE[i];
    if (below && above && curveNumber <= above[0]) {
      const share = (curveNumber - below[0]) / (above[0] - below[0]);
      return below[column] + share * (above[column] - below[column]);
    }
  }
  return 100;
}

/**
 * Antecedent moisture class from the rain of the five days before the storm.
 *
 * @param rain5dMm rain of the five days before, mm, 0 or more
 * @param growing  true in the growing season, false while plants are dormant
 * @throws RangeError for a negative rain
 * @see SCS National Engineering Handbook 4 (withdrawn from the 1993 release), as used in USGS SWB
 */
export function antecedentMoisture(rain5dMm: number, growing: boolean): MoistureClass {
  requireRange('rain5dMm', rain5dMm, 0, 5000);
  const inches = rain5dMm / 25.4;
  const [low, high] = growing ? [1.4, 2.1] : [0.5, 1.1];
  return inches < low ? 'dry' : inches > high ? 'wet' : 'average';
}
