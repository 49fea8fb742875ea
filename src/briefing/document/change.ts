/** What changed since the last issue. */
import { z } from 'zod';
import { clarityClass, levelSchema, quantityKindSchema, signalIds, statementSchema } from './fact.ts';

/** A kind of place and what it is called. */
const placeSchema = z.object({ id: z.string(), name: statementSchema });

/** What a change did to the order of places. */
export const movedSchema = z.discriminatedUnion('code', [
  z.object({ code: z.literal('readHazard') }),
  z.object({ code: z.literal('noMove') }),
  z.object({ code: z.literal('movedUp'), place: placeSchema, before: z.number(), now: z.number() }),
  z.object({ code: z.literal('movedDown'), place: placeSchema, before: z.number(), now: z.number() }),
  z.object({ code: z.literal('entered'), place: placeSchema, now: z.number() }),
  z.object({ code: z.literal('strengthened'), place: placeSchema }),
  z.object({ code: z.literal('weakened'), place: placeSchema }),
  z.object({ code: z.literal('because'), reason: statementSchema }),
]);

/** A change since the last issue; `before` and `now` are null where the figure was or is not known. */
export const changeSchema = z.discriminatedUnion('code', [
  z.object({ code: z.literal('level'), before: levelSchema, now: levelSchema, moved: movedSchema }),
  z.object({
    code: z.literal('figure'),
    signal: z.enum(signalIds),
    quantity: quantityKindSchema.nullable(),
    signed: z.boolean(),
    before: z.number().nullable(),
    now: z.number().nullable(),
    guessBefore: clarityClass.optional(),
    guess: clarityClass.optional(),
    moved: movedSchema,
  }),
  z.object({
    code: z.literal('airFall'),
    fallK: z.number().describe('by how much the mean of the day is below that of the day before'),
    moved: movedSchema,
  }),
  z.object({ code: z.literal('order'), before: placeSchema, now: placeSchema, moved: movedSchema }),
]);
export type ChangeFact = z.infer<typeof changeSchema>;
export type MovedFact = z.infer<typeof movedSchema>;
