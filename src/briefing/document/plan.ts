/** The day on one clock. */
import { z } from 'zod';
import { instant, levelSchema, statementSchema } from './fact.ts';
import { castSchema } from './place.ts';

const clockTime = z
  .string()
  .regex(/^\d{2}:\d{2}$/)
  .describe('clock of the lake, 24 h');
const spanSchema = z.object({ fromMs: instant, toMs: instant, from: clockTime, to: clockTime });

/** A stretch of the day at one place; the hour `to` is not part of it. */
export const blockSchema = spanSchema.extend({
  place: z.string(),
  name: statementSchema,
  named: z.string().optional().describe('name that the lake gives it'),
  depthM: z.tuple([z.number(), z.number()]),
  lureClass: statementSchema,
  weightG: z.number().nullable(),
  baitM: z
    .number()
    .optional()
    .describe('length of a bait that is fished without any weight, m; weightG is then its own'),
  because: z.array(statementSchema),
  giveUp: statementSchema,
  wayM: z.number().optional().describe('by water from the block before, m'),
  fogTo: clockTime.optional().describe('it begins in likely fog, which lifts about then'),
  startAt: clockTime.optional().describe('first block in cold water: nothing is lost by starting then'),
  whyChange: statementSchema.nullable().describe('what differs from the block before; null for the first'),
  layer: statementSchema
    .optional()
    .describe('where the layer is estimated to stand, of a block that reaches it'),
  cast: castSchema,
});

const patternSchema = z.union([
  z.object({
    place: z.string(),
    name: statementSchema,
    named: z.string().optional(),
    depthM: z.tuple([z.number(), z.number()]),
    lureClass: statementSchema,
    because: z.array(statementSchema),
  }),
  z.object({ none: statementSchema }),
]);

/** The day on one clock. */
export const planSchema = z.object({
  fishing: spanSchema.nullable(),
  blocks: z.array(blockSchema).max(4).describe('in order of time; empty when nothing is planned'),
  second: patternSchema,
  manyFish: patternSchema,
  bigFish: patternSchema,
  closed: z.array(spanSchema.extend({ hazard: z.string(), level: levelSchema })),
  beInBy: z
    .object({ atMs: instant, at: clockTime, because: statementSchema })
    .nullable()
    .describe('when to be off the water'),
  lightAllNight: z.literal(true).optional().describe('civil dusk does not come'),
  leftOut: statementSchema
    .optional()
    .describe('places that a hazard keeps from coming first; left out where none is'),
  notPlanned: statementSchema.nullable().describe('why there are no blocks; null when there are some'),
});
export type PlanFacts = z.infer<typeof planSchema>;
export type BlockFacts = z.infer<typeof blockSchema>;
