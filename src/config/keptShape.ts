/** Shapes that were computed before: by what they are known again, and how they are written down and read. */
import { createHash } from 'node:crypto';
import { z } from 'zod';
import type { LakeShape } from './types.ts';

/**
 * Version of what is computed from an outline. It has to rise with every change of the result, or a record goes on with
 * what it kept; `tests/config/keptShape.test.ts` holds the result against it.
 */
export const SHAPE_VERSION = 1;

/** @param file as it lies on the disk */
export const keyOf = (file: Uint8Array, ...besides: readonly unknown[]): string =>
  createHash('sha256')
    .update(JSON.stringify([SHAPE_VERSION, ...besides]))
    .update(file)
    .digest('hex');

const metres = z.number();
const spotSchema = z.tuple([metres, metres]);
const shapeSchema = z.object({
  outline: z.object({
    areaM2: z.number(),
    shores: z.number(),
    pointsRead: z.number(),
    pointsKept: z.number(),
  }),
  drawn: z.array(z.array(spotSchema)),
  places: z.array(
    z.object({
      name: z.string(),
      kind: z.enum(['pocket', 'point', 'ramp']),
      at: spotSchema,
      bankM: metres,
      facesDeg: z.number(),
      fetchesM: z.array(metres),
      cove: z.object({ mouthWidthM: metres, areaM2: z.number() }).optional(),
    }),
  ),
  openFetchesM: z.array(metres),
  longestFetchM: metres,
  waysM: z.array(z.array(metres.nullable())),
});

function read<T>(body: string, schema: z.ZodType<T>): T | null {
  let written: unknown;
  try {
    written = JSON.parse(body);
  } catch {
    return null;
  }
  const found = schema.safeParse(written);
  return found.success ? found.data : null;
}

/** @returns null for what is no shape of this version: it is computed again */
export function keptLakeShape(body: string): LakeShape | null {
  const found = read(body, shapeSchema);
  if (found === null) return null;
  const places = found.places.map(({ cove, ...place }) => (cove === undefined ? place : { ...place, cove }));
  return { ...found, places };
}

/** Land that drains into a pocket, m2. @returns null for what is none */
export const keptAreaM2 = (body: string): number | null => read(body, z.number().positive());
