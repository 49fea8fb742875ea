/** Where a place lies, which way it is open, and what stands around it, as written. */
import { z } from 'zod';
import { quantity } from './quantity.ts';

/** No black bass lives nearer to a pole, degrees. */
export const MOST_LAT = 66;

export const positionSchema = z.strictObject({
  lat: z
    .number()
    .min(-MOST_LAT)
    .max(MOST_LAT)
    .describe('Degrees north, with a decimal point; south is negative'),
  lon: z.number().min(-180).max(180).describe('Degrees east, with a decimal point; west is negative'),
});

/** Eighths of the compass, from north with the sun. */
const POINTS = ['N', 'NE', 'E', 'SE', 'S', 'SW', 'W', 'NW'] as const;
type Point = (typeof POINTS)[number];

export const facesSchema = z
  .enum(POINTS)
  .describe('Side to which it is open: wind from there reaches it, and the sun when it stands there');

const height = quantity('angle', { min: 0, max: 80 }).describe(
  'Height of the land above the water in this direction, e.g. "12 deg"',
);

export const horizonSchema = z
  .partialRecord(z.enum(POINTS), height)
  .refine(
    (written) => Object.keys(written).length > 0,
    'expected at least one direction, for example W: 12 deg',
  )
  .describe(
    'Height of hills and trees above the water by direction, e.g. { E: 8 deg, W: 15 deg }; those left out lie between their neighbours',
  );

export const facesDeg = (faces: Point): number => POINTS.indexOf(faces) * 45;

/** Eight heights from north with the sun; a direction that was left out lies between its neighbours that were given. */
export function horizonDeg(written: Readonly<Partial<Record<Point, number>>>): number[] {
  const given = POINTS.flatMap((point, i) => {
    const value = written[point];
    return value === undefined ? [] : [{ i, value }];
  });
  return POINTS.map((_, i) => {
    const before = given.findLast((one) => one.i <= i) ?? given.at(-1);
    const after = given.find((one) => one.i >= i) ?? given[0];
    if (before === undefined || after === undefined) return 0;
    const span = (after.i - before.i + 8) % 8;
    return span === 0
      ? before.value
      : before.value + (((i - before.i + 8) % 8) / span) * (after.value - before.value);
  });
}
