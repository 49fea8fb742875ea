import { z } from 'zod';

/** Local time as written, `HH:MM`. */
export const clock = z
  .string()
  .regex(/^([01]\d|2[0-3]):[0-5]\d$/, 'expected a local time in quotes, for example "05:30"');

/** Minutes after midnight of a time that `clock` has checked. */
export function minutesOf(time: string): number {
  const [hours, minutes] = time.split(':');
  return Number(hours) * 60 + Number(minutes);
}

const POINTS = [
  'N',
  'NNE',
  'NE',
  'ENE',
  'E',
  'ESE',
  'SE',
  'SSE',
  'S',
  'SSW',
  'SW',
  'WSW',
  'W',
  'WNW',
  'NW',
  'NNW',
] as const;

/** Direction as written: one of the 16 points, or degrees clockwise from north. */
export function directionDeg(written: string | number): number | null {
  const text = String(written).trim();
  const point = POINTS.findIndex((name) => name === text.toUpperCase());
  if (point >= 0) return point * 22.5;
  const match = /^(\d+(?:\.\d+)?)\s*(?:deg|°)?$/.exec(text);
  const degrees = match?.[1] === undefined ? NaN : Number(match[1]);
  return degrees >= 0 && degrees <= 360 ? degrees % 360 : null;
}

/** Schema of a direction. */
export const direction = z
  .union([z.string(), z.number()])
  .refine(
    (written) => directionDeg(written) !== null,
    `expected degrees from 0 to 360, clockwise from north, or one of ${POINTS.join(', ')}`,
  )
  .describe('direction the wind blows from, in degrees or one of the 16 points, e.g. "NW"');
