/** The lake itself: name, clock, outline, notices of its operator. */
import { z } from 'zod';
import { CLOCKS, LANGUAGES } from '../../vocabulary/index.ts';
import { dateIso, instant } from './fact.ts';

const metres = z.tuple([z.number(), z.number()]).describe('m east and north of the position of the lake');

/** The lake as it is drawn, with its own places. */
export const mapSchema = z.object({
  rings: z.array(z.array(metres)).describe('shores and islands, the water left of every line'),
  places: z.array(
    z.object({
      named: z.string(),
      kind: z.enum(['pocket', 'point', 'ramp']),
      at: metres,
      facesDeg: z.number().describe('bearing to which it is open'),
      waves: z
        .array(z.object({ atMs: instant, waveM: z.number() }))
        .describe('significant height by hour, m'),
      minusMainC: z.number().optional().describe('pocket at its warmest hour minus the main lake, K'),
    }),
  ),
});

export const lakeSchema = z.object({
  id: z.string(),
  name: z.string(),
  arm: z.string().optional(),
  zone: z.string(),
  language: z.enum(LANGUAGES).optional(),
  clock: z.enum(CLOCKS).optional(),
});

export const noticesSchema = z
  .array(z.object({ text: z.string(), from: dateIso, until: dateIso.nullable() }))
  .describe('of the operator, as written, with the local date it was given and the last one it stands');
