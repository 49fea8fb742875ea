/** What can hurt, as a briefing keeps it. */
import { z } from 'zod';
import { instant, levelSchema, statementSchema } from './fact.ts';

/** What a hazard is in every version of the document and on the page. */
export const hazardCore = {
  id: z.string(),
  level: levelSchema,
  source: z.string(),
  official: z
    .object({
      issuer: z.string(),
      text: z.string(),
      endsMs: instant.nullable(),
      cut: z.boolean().optional().describe('the issuer wrote more than stands in text'),
      url: z.string().optional().describe('where the issuer keeps the whole text'),
    })
    .optional(),
};
export const hazardSchema = z.union([
  z.object({
    ...hazardCore,
    told: statementSchema.describe('what it is, with the numbers it was judged by'),
  }),
  z
    .object({
      ...hazardCore,
      headline: statementSchema,
      what: statementSchema,
      where: statementSchema,
      when: statementSchema,
      doThis: statementSchema,
    })
    .describe('as earlier issues kept it: in sentences'),
]);
export type HazardFacts = z.infer<typeof hazardSchema>;
