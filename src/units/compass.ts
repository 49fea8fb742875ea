/** Eighth of the compass a bearing lies in: 0 north, 1 north-east, ... 7 north-west. @param deg clockwise from north, 0 to 360 */
export const eighthOf = (deg: number): number => Math.round(deg / 45) % 8;
