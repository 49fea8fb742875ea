/** What comparing and scoring read of an issue of any version. */
import { z } from 'zod';
import { seriesSchema } from './days.ts';
import { clarityClass, dateIso, instant, levelSchema, rowCoreSchema } from './fact.ts';
import { positionCoreSchema } from './place.ts';

/** Every version of the document has it. */
export const comparableSchema = z.object({
  status: z.enum(['scheduled', 'amended', 'corrected', 'evening', 'nil']),
  demo: z.boolean(),
  preview: z.boolean(),
  lake: z.object({ zone: z.string() }),
  date: dateIso,
  issuedMs: instant,
  safety: z.object({ level: levelSchema }),
  conditions: z.array(
    rowCoreSchema.extend({
      guess: clarityClass.optional(),
      words: z.string().optional().describe('first version: set where the clarity was a guess'),
    }),
  ),
  positions: z.array(positionCoreSchema).optional(),
  series: seriesSchema,
});
export type ComparableIssue = z.infer<typeof comparableSchema>;
