/** A ranked place and a cast worked there. */
import { z } from 'zod';
import { LURE_FAMILIES } from '../../vocabulary/index.ts';
import { statementSchema } from './fact.ts';

export const positionCoreSchema = z.object({
  place: z.string(),
  rank: z.number().int(),
  contributions: z.record(z.string(), z.number()).describe('points by signal'),
});

export const positionSchema = positionCoreSchema.extend({
  name: statementSchema,
  named: z.string().optional().describe('name that the lake gives it'),
  depthM: z.tuple([z.number(), z.number()]),
  period: z.enum(['earlier', 'later', 'all_day']),
  bound: z.enum(['rest', 'cool', 'dark', 'hot', 'open', 'closed']).optional(),
  hours: z.tuple([z.number(), z.number()]).optional().describe('local hours of the day'),
  because: z.array(statementSchema).describe('strongest first; several rules may say one sentence'),
  limitedBy: statementSchema.nullable(),
  total: z.number(),
  reasons: z
    .array(
      z.object({
        signal: z.string(),
        value: z.number().nullable().describe('SI'),
        sentence: statementSchema,
      }),
    )
    .describe('what speaks for it, strongest first'),
});

/** The numbers of a cast, SI. */
export const castNumbers = {
  place: z.string(),
  runningDepthM: z.number(),
  retrieveMs: z.number(),
  retrieveLowMs: z.number(),
  retrieveHighMs: z.number(),
  turnsPerS: z.number(),
  pauseS: z.number(),
  lineKg: z.number(),
  boatDepthM: z.number(),
  castDepthM: z.number(),
  castLengthM: z.number(),
  castAngleDeg: z.number(),
  bankDeg: z.number(),
  contactShare: z.number(),
  contactFromM: z.number().nullable(),
  contactToM: z.number().nullable(),
  family: z.enum(LURE_FAMILIES).optional().describe('absent in earlier issues'),
  path: z
    .array(z.object({ alongM: z.number(), depthM: z.number() }))
    .optional()
    .describe(
      'corners of the way of the lure from where it lands to the boat, m towards the boat and m deep; absent in earlier issues',
    ),
};
export const castSchema = z.union([
  z.object({
    ...castNumbers,
    lureClass: statementSchema,
    told: statementSchema.describe('class of lure, tackle, pace and what they rest on'),
  }),
  z
    .object({
      ...castNumbers,
      lureClass: statementSchema,
      because: statementSchema,
      reel: statementSchema,
      pauseWords: statementSchema,
      lineWords: statementSchema,
      steps: z.array(statementSchema),
      misfit: statementSchema.optional(),
    })
    .describe('as earlier issues kept it: in sentences'),
]);
export type PositionFacts = z.infer<typeof positionSchema>;
export type CastFacts = z.infer<typeof castSchema>;
