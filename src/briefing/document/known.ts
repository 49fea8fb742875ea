/** What is not known, how past issues have done, and where the figures come from. */
import { z } from 'zod';
import { instant, statementSchema } from './fact.ts';

/** A source that could not be read, or what signals and advice miss. */
export const gapSchema = z.union([
  z.object({
    code: z.literal('notRead'),
    source: z.string(),
    atMs: instant,
    problem: z.string(),
    inPart: z.boolean().optional(),
  }),
  statementSchema,
]);

const tallySchema = z.object({ hits: z.number(), of: z.number(), low: z.number(), high: z.number() });
export const scoreSchema = z.object({
  item: z.enum(['water', 'waterAhead', 'level', 'air', 'wind']),
  n: z.number(),
  meanError: z.number(),
  meanAbsError: z.number(),
  heldMeanAbsError: z.number(),
  inside: tallySchema.optional(),
  direction: tallySchema.optional(),
  heldDirection: tallySchema.optional(),
});

/** What past outlooks of the water taught, for a group of days ahead. */
export const lessonSchema = z.object({
  fromDays: z.number().int(),
  toDays: z.number().int(),
  issues: z.number().int().describe('past issues that could be compared'),
  learned: z.boolean().describe('false: too few yet, figures and ranges are as elsewhere'),
  biasC: z.number().describe('taken off what the model says, K'),
  spread: z.number().describe('what the interval is multiplied by'),
});

const outingRateSchema = z.object({
  n: z.number().int().describe('outings'),
  perHour: z.number().describe('fish an hour'),
  low: z.number().describe('lower end of the 80 % interval'),
  high: z.number(),
});
export const outingsSchema = z.object({
  n: z.number().int(),
  readers: z.number().int(),
  followed: outingRateSchema,
  elsewhere: outingRateSchema,
});

export const sourceSchema = z.object({
  name: z.string(),
  attribution: z.string(),
  url: z.string(),
  licence: z.string(),
  lastMs: instant.nullable(),
});
export type GapFact = z.infer<typeof gapSchema>;
export type ScoreFacts = z.infer<typeof scoreSchema>;
export type LessonFacts = z.infer<typeof lessonSchema>;
export type OutingFacts = z.infer<typeof outingsSchema>;
