/** What every part of a briefing is made of: figures, rows, facts to be said, instants and dates. */
import { z } from 'zod';
import { SI_UNIT, type QuantityKind } from '../../units/index.ts';
import { SIGNALS } from '../../vocabulary/index.ts';

const kinds = Object.keys(SI_UNIT) as [QuantityKind, ...QuantityKind[]];
export const signalIds = Object.keys(SIGNALS) as [keyof typeof SIGNALS, ...(keyof typeof SIGNALS)[]];

export const instant = z.number().int().describe('epoch milliseconds, UTC');
export const dateIso = z.string().regex(/^\d{4}-\d{2}-\d{2}$/);

/** A fact: a code with the numbers, SI, that its sentence needs. Earlier issues kept sentences, under the code `said`. */
export interface Statement {
  readonly code: string;
}
export const statementSchema: z.ZodType<Statement> = z.looseObject({ code: z.string() });

export const quantityKindSchema = z.enum(kinds);
export const levelSchema = z.union([z.literal(1), z.literal(2), z.literal(3), z.literal(4)]);

export const figureSchema = z.object({
  value: z.number().describe('SI'),
  low: z.number().optional().describe('lower end of the 80 % interval, SI'),
  high: z.number().optional(),
  quantity: quantityKindSchema,
  unit: z.string().describe('SI unit of value, low and high'),
  kind: z.enum(['observed', 'forecast', 'estimated']),
  asOfMs: instant,
  ageMinutes: z.number().int().min(0).describe('at the time of issue'),
  freshness: z.enum(['fresh', 'ageing', 'stale']),
  source: z.union([statementSchema, z.string()]).describe('in words in documents of the first version'),
});

export const clarityClass = z.enum(['clear', 'stained', 'muddy', 'very-muddy']);

/** What every version of a row has had, and all that a comparison reads. */
export const rowCoreSchema = z.object({
  id: z.enum(signalIds),
  signed: z.boolean().describe('printed with its sign: a change or a difference'),
  now: figureSchema.nullable(),
  last: figureSchema.nullable().describe('stale value, shown as "last ..." and used by nothing'),
  change24h: z.object({ value: z.number(), quantity: quantityKindSchema }).nullable(),
  tenDays: z
    .object({
      low: z.number(),
      high: z.number(),
      values: z.array(z.number().nullable()).describe('one a local day, oldest first, today last'),
    })
    .nullable(),
  next48h: z
    .object({
      low: z.number(),
      high: z.number(),
      quantity: quantityKindSchema,
      hours: z.number().describe('how far ahead the source looks: 24 or 48'),
      likelyLow: z.number().optional().describe('lower end of the 80 % interval of these hours, SI'),
      likelyHigh: z.number().optional(),
    })
    .nullable(),
});

export const rowSchema = rowCoreSchema.extend({
  guess: clarityClass
    .optional()
    .describe('printed in place of now, which is then the middle of the class, for the rules alone'),
  river: z.literal(true).optional().describe('a flow that passes on running water, and no inflow of a lake'),
  notes: z.array(statementSchema).describe('what the figure means'),
});
export type BriefingFigure = z.infer<typeof figureSchema>;
export type ConditionFacts = z.infer<typeof rowSchema>;
