/** Eighth of the compass a bearing lies in: 0 north, 1 north-east, ... 7 north-west. @param deg clockwise from north, 0 to 360 */
export const eighthOf = (deg: number): number => Math.round(deg / 45) % 8;

/** Angle between two bearings, 0 to 180. @param a clockwise from north, 0 to 360; b alike */
export const betweenDeg = (a: number, b: number): number => Math.abs(((a - b + 540) % 360) - 180);

const RAD = Math.PI / 180;
/** Directions that scatter so far have no mean worth naming: length of their mean unit vector. */
const LEAST_AGREEMENT = 0.5;

/** Mean of directions, degrees clockwise from north; undefined where there are none or they point all ways. */
export function meanBearingDeg(degrees: readonly number[]): number | undefined {
  if (degrees.length === 0) return undefined;
  const mean = (of: (deg: number) => number): number =>
    degrees.reduce((sum, deg) => sum + of(deg * RAD), 0) / degrees.length;
  const [east, north] = [mean(Math.sin), mean(Math.cos)];
  if (Math.hypot(east, north) < LEAST_AGREEMENT) return undefined;
  return ((Math.atan2(east, north) / RAD + 360) % 360) + 0;
}
